/** Where the page begins: the kept book first, then the window, then whatever the address asks for. */
import '@fontsource-variable/source-sans-3/wght.css';
import './look/tokens.css';
import './look/fields.css';
import './look/panels.css';
import './shell/shell.css';
import './ladder/bench.css';
import './look/charts.css';
import './screens/take/take.css';
import './screens/puppet/puppet.css';
import './screens/pace/pace.css';
import './screens/poise/poise.css';
import './screens/sheet/sheet.css';
import { createRoot } from 'react-dom/client';
import { App } from './App.tsx';
import { startFitting } from './fit/fitting.ts';
import { startKeepingLook } from './look/keepLook.ts';
import { askedClip } from './media/bundledClips.ts';
import { openBundled, startFollowing } from './media/takes.ts';
import { Guard } from './shell/Guard.tsx';
import { followAddress } from './shell/address.ts';
import { startKeeping } from './state/keeping.ts';
import { startPlanning } from './state/planning.ts';
import { attempt } from './state/problems.ts';
import { session } from './state/session.ts';

function start(): void {
  const place = document.getElementById('bench');
  if (place === null) throw new Error('The page has no place for the bench.');
  followAddress();
  startKeepingLook();
  createRoot(place).render(<Guard><App /></Guard>);
  attempt(async () => {
    await startKeeping();
    session.setState({ ready: true });
    startPlanning();
    startFitting();
    startFollowing();
    const asked = askedClip(location.search);
    if (asked !== undefined) await openBundled(asked);
  });
}

start();
