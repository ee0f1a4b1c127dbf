/**
 * The one table of keys. The handler, the key list and the hints on the screen all read it.
 */
import { COMMAND_NAMES, type CommandName } from '../state/commandNames.ts';

/** Keys as `KeyboardEvent.key` names them, with `Ctrl+` and `Shift+` in front; the first of a command is the one shown. */
export const KEYMAP: Readonly<Record<CommandName, readonly string[]>> = {
  showTake: ['1'],
  showPuppet: ['2'],
  showPace: ['3'],
  showPoise: ['4'],
  showSheet: ['5'],
  toggleRed: ['r'],
  toggleHelp: ['?', 'F1'],
  stepUp: ['ArrowUp'],
  stepDown: ['ArrowDown'],
  pageUp: ['PageUp'],
  pageDown: ['PageDown'],
  firstStep: ['Home'],
  lastStep: ['End'],
  goToStep: ['g'],
  frameBack: [','],
  frameOn: ['.'],
  rowsTaller: ['+', '='],
  rowsLower: ['-', '\u2212'],
  inHere: ['i'],
  outHere: ['o'],
  openDemo: ['d'],
  fitBody: ['f'],
  takeCutoff: ['h'],
  markHere: ['z'],
  nextMark: ['>', 'Shift+PageDown'],
  formerMark: ['<', 'Shift+PageUp'],
  playOrTap: [' '],
  holdHere: ['Shift+z'],
  nextPaceView: ['Shift+v'],
  stopWork: ['Escape'],
  nextJoint: ['j'],
  formerJoint: ['Shift+j'],
  typeAngle: ['y'],
  takeBackHere: ['Delete', 'Backspace'],
  turnDepth: ['t'],
  leftFoot: ['a'],
  rightFoot: ['e'],
  swapSides: ['x'],
  spanFrom: ['q'],
  spanTo: ['w'],
  clearSpan: ['Shift+q'],
  nextUnsure: ['u'],
  formerUnsure: ['Shift+u'],
  viewFront: ['v'],
  viewSide: ['b'],
  viewTop: ['n'],
  viewTurned: ['m'],
  orbitLeft: ['ArrowLeft'],
  orbitRight: ['ArrowRight'],
  orbitUp: ['Shift+ArrowUp'],
  orbitDown: ['Shift+ArrowDown'],
  toggleGhosts: ['k'],
  toggleLabels: ['l'],
  toggleShot: ['s'],
  undo: ['Ctrl+z'],
  redo: ['Ctrl+Shift+z', 'Ctrl+y'],
  openFile: ['Ctrl+o'],
  saveBook: ['Ctrl+s'],
  newBook: ['Shift+n'],
  saveIncrements: ['c'],
  savePlan: ['p'],
};

/** The part of a key event that is looked at. */
export interface KeyPress {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

/** A key press as the table writes it; the command key of a Mac counts as Ctrl. Alt is left to the browser. */
export function comboOf(press: KeyPress): string | undefined {
  if (press.altKey) return undefined;
  const isLetter = /^\p{L}$/u.test(press.key);
  // Shift is part of how signs such as ? and + are typed, so it only counts for letters and named keys.
  const shift = press.shiftKey && (isLetter || press.key.length > 1) ? 'Shift+' : '';
  const ctrl = press.ctrlKey || press.metaKey ? 'Ctrl+' : '';
  return `${ctrl}${shift}${isLetter ? press.key.toLowerCase() : press.key}`;
}

const COMMAND_OF: ReadonlyMap<string, CommandName> = new Map(
  COMMAND_NAMES.flatMap((name) => KEYMAP[name].map((combo) => [combo, name] as const)),
);

/** The command of a key press, if it has one. */
export function commandFor(press: KeyPress): CommandName | undefined {
  const combo = comboOf(press);
  return combo === undefined ? undefined : COMMAND_OF.get(combo);
}

const KEY_WORDS: Readonly<Record<string, string>> = {
  ' ': 'Space', ArrowUp: '↑', ArrowDown: '↓', ArrowLeft: '←', ArrowRight: '→', PageUp: 'PgUp', PageDown: 'PgDn', Escape: 'Esc', Delete: 'Del', '-': '−',
};

/** One combination as it is printed on keys: `Ctrl+Z`, `↑`. */
export function comboWords(combo: string): string {
  const parts = combo === '+' ? ['+'] : combo.split('+');
  return parts.map((part) => KEY_WORDS[part] ?? (part.length === 1 ? part.toUpperCase() : part)).join('+');
}

/** The first key of a command as it is printed on keys. */
export function keyWords(name: CommandName): string {
  return comboWords(KEYMAP[name][0] ?? '');
}
