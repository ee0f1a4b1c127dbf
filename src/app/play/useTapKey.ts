/** The space bar as the stopwatch's: heard before anything else, at the moment it went down. */
import { useEffect } from 'react';
import { session } from '../state/session.ts';
import { player } from './player.ts';
import { tap } from './stopwatch.ts';

function isTyping(target: EventTarget | null): boolean {
  if (target instanceof HTMLInputElement) return target.type !== 'checkbox';
  return target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement;
}

export function useTapKey(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.key !== ' ' || event.ctrlKey || event.metaKey || event.altKey) return;
      if (!player.getState().stopwatch || session.getState().helpOpen || isTyping(event.target)) return;
      // neither the page nor the button that has the focus gets it, down or up
      event.preventDefault();
      if (event.type === 'keydown' && !event.repeat) tap(event.timeStamp);
    };
    for (const type of ['keydown', 'keyup'] as const) window.addEventListener(type, onKey, true);
    return () => {
      for (const type of ['keydown', 'keyup'] as const) window.removeEventListener(type, onKey, true);
    };
  }, []);
}
