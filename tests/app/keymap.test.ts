import { describe, expect, it } from 'vitest';
import { comboOf, comboWords, commandFor, KEYMAP, keyWords } from '../../src/app/keys/keymap.ts';
import { COMMAND_GROUPS, COMMAND_NAMES, COMMAND_WORDS } from '../../src/app/state/commandNames.ts';

/** The key event that a combination of the table stands for. */
function pressOf(combo: string): { key: string; ctrlKey: boolean; metaKey: boolean; shiftKey: boolean; altKey: boolean } {
  const ctrlKey = combo.startsWith('Ctrl+');
  const rest = ctrlKey ? combo.slice(5) : combo;
  const shiftKey = rest.startsWith('Shift+');
  const key = shiftKey ? rest.slice(6) : rest;
  return { key: shiftKey && key.length === 1 ? key.toUpperCase() : key, ctrlKey, metaKey: false, shiftKey, altKey: false };
}

describe('the keymap', () => {
  it('reaches every command by every key it names', () => {
    for (const name of COMMAND_NAMES) {
      expect(KEYMAP[name].length).toBeGreaterThan(0);
      for (const combo of KEYMAP[name]) expect(commandFor(pressOf(combo))).toBe(name);
    }
  });

  it('gives no key to two commands', () => {
    const combos = COMMAND_NAMES.flatMap((name) => KEYMAP[name]);
    expect(new Set(combos).size).toBe(combos.length);
  });

  it('lists every command once', () => {
    const listed = Object.values(COMMAND_GROUPS).flatMap((group) => Object.keys(group));
    expect(listed.length).toBe(COMMAND_NAMES.length);
    expect(COMMAND_NAMES.every((name) => COMMAND_WORDS[name].length > 0)).toBe(true);
  });

  it('does not care for Shift with signs, and does with letters', () => {
    expect(commandFor({ key: '?', ctrlKey: false, metaKey: false, shiftKey: true, altKey: false })).toBe('toggleHelp');
    expect(commandFor({ key: '+', ctrlKey: false, metaKey: false, shiftKey: true, altKey: false })).toBe('rowsTaller');
    expect(commandFor({ key: 'Z', ctrlKey: true, metaKey: false, shiftKey: true, altKey: false })).toBe('redo');
    expect(commandFor({ key: 'z', ctrlKey: true, metaKey: false, shiftKey: false, altKey: false })).toBe('undo');
    expect(commandFor({ key: 'S', ctrlKey: false, metaKey: false, shiftKey: true, altKey: false })).toBeUndefined();
  });

  it('takes the command key of a Mac for Ctrl and leaves Alt to the browser', () => {
    expect(commandFor({ key: 's', ctrlKey: false, metaKey: true, shiftKey: false, altKey: false })).toBe('saveBook');
    expect(comboOf({ key: 's', ctrlKey: false, metaKey: false, shiftKey: false, altKey: true })).toBeUndefined();
  });

  it('prints keys as keyboards do', () => {
    expect(keyWords('undo')).toBe('Ctrl+Z');
    expect(keyWords('stepUp')).toBe('↑');
    expect(comboWords('+')).toBe('+');
    expect(comboWords('Ctrl+Shift+z')).toBe('Ctrl+Shift+Z');
  });
});
