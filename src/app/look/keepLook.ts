/** Keeps the look of things and the place of the playhead from one visit to the next. */
import { playhead, setPlayhead } from '../state/playhead.ts';
import { session } from '../state/session.ts';
import { loadPrefs, savePrefs } from './prefs.ts';

/** Preferences are written when nothing has changed for this long, and when the page is hidden. */
const QUIET_MS = 400;

export function startKeepingLook(): void {
  setPlayhead({ step: loadPrefs().step, nudge: 0 });
  let timer: ReturnType<typeof setTimeout> | undefined;
  const save = (): void => {
    clearTimeout(timer);
    const { rowPx, red, joints, parts, units } = session.getState();
    savePrefs({ rowPx, red, joints, parts, units, step: playhead.getState().step });
  };
  const soon = (): void => {
    clearTimeout(timer);
    timer = setTimeout(save, QUIET_MS);
  };
  const dress = (): void => {
    document.documentElement.dataset['look'] = session.getState().red ? 'red' : 'lamp';
  };
  dress();
  session.subscribe((now, before) => {
    if (now.red !== before.red) dress();
    if (now.rowPx !== before.rowPx || now.red !== before.red || now.joints !== before.joints || now.parts !== before.parts || now.units !== before.units) soon();
  });
  playhead.subscribe(soon);
  window.addEventListener('pagehide', save);
}
