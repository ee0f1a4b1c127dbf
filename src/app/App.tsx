/** The window: a head line, a strip for what went wrong, and the screen that is shown. Nothing else lives here. */
import type { ReactElement } from 'react';
import { useKeys } from './keys/useKeys.ts';
import { PaceScreen } from './screens/pace/PaceScreen.tsx';
import { PoiseScreen } from './screens/poise/PoiseScreen.tsx';
import { PuppetScreen } from './screens/puppet/PuppetScreen.tsx';
import { SheetScreen } from './screens/sheet/SheetScreen.tsx';
import { TakeScreen } from './screens/take/TakeScreen.tsx';
import { DropPlace } from './shell/DropPlace.tsx';
import { HeadLine } from './shell/HeadLine.tsx';
import { KeyList } from './shell/KeyList.tsx';
import { LiveRegion } from './shell/LiveRegion.tsx';
import { ProblemStrip } from './shell/ProblemStrip.tsx';
import { useSession } from './state/use.ts';

const SCREEN_OF = { take: TakeScreen, puppet: PuppetScreen, pace: PaceScreen, poise: PoiseScreen, sheet: SheetScreen } as const;

export function App(): ReactElement {
  useKeys();
  const screen = useSession((s) => s.screen);
  const Screen = SCREEN_OF[screen];
  return (
    <div className="window">
      <HeadLine />
      <ProblemStrip />
      <Screen />
      <KeyList />
      <DropPlace />
      <LiveRegion />
    </div>
  );
}
