/** Hands key presses to commands, unless someone is typing. */
import { useEffect } from 'react';
import { session } from '../state/session.ts';
import { commandFor } from './keymap.ts';
import { player } from '../play/player.ts';
import { runCommand } from '../state/commands.ts';

/** Whether a key belongs to the field that has it and not to the bench. */
function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement) return target.type !== 'checkbox';
  return target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement || target.isContentEditable;
}

/** Whether a key means nothing in the line of text that has it. */
function leavesField({ key, shiftKey, target }: KeyboardEvent): boolean {
  return shiftKey && /^Page(Up|Down)$/.test(key) && target instanceof HTMLInputElement && target.type === 'text';
}

/** Whether the space bar presses it. */
function isPressable(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest('button, summary, input, [role="button"], [role="checkbox"]') !== null;
}

export function useKeys(): void {
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      const command = commandFor(event);
      if (command === undefined || event.defaultPrevented) return;
      const withCtrl = event.ctrlKey || event.metaKey;
      if (isTyping(event.target) && !(withCtrl && command !== 'undo' && command !== 'redo') && !leavesField(event)) return;
      // The space bar presses what has the focus, but while somebody taps it is the stopwatch's.
      if (command === 'playOrTap' && !player.getState().stopwatch && isPressable(event.target)) return;
      if (session.getState().helpOpen && command !== 'toggleHelp') return;
      // A held key may move the playhead, but must not open ten files.
      if (event.repeat && !/^(step|page|frame|rows|orbit)/.test(command)) {
        event.preventDefault();
        return;
      }
      if (runCommand(command)) event.preventDefault();
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, []);
}
