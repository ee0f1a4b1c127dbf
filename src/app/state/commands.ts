/**
 * Everything a person can do by name. Buttons, keys and drops all come through here, so that a thing is done in one way only.
 */
import { newBook } from '../../book/document.ts';
import { nextRowPx } from '../../charts/rowScale.ts';
import { canFit, fitAgain } from '../fit/fitting.ts';
import { DEMO_CLIP } from '../media/bundledClips.ts';
import { frameAtPlayhead, playheadAtFrame } from '../media/frameAtPlayhead.ts';
import { stopWork } from '../media/posing.ts';
import { openBundled } from '../media/takes.ts';
import { isPuppetCommand, PUPPET_COMMANDS } from '../puppet3d/puppetView.ts';
import { bookStore, currentBook, editBook, editSettings, redoBook, toggleShot, undoBook } from './bookStore.ts';
import type { CommandName } from './commandNames.ts';
import { CORRECTING_COMMANDS, isCorrectingCommand } from './correctingCommands.ts';
import { goToMark } from './goToMark.ts';
import { saveIncrements, savePlan } from './exports.ts';
import { askAndOpen, saveBookFile } from './files.ts';
import { playOrTap } from '../play/player.ts';
import { playhead, setPlayhead } from './playhead.ts';
import { PACE_VIEWS, paceView } from './paceView.ts';
import { attempt, dismissProblem } from './problems.ts';
import { changesBench, type Screen, session } from './session.ts';
import { frameTimes } from './shownFrame.ts';
import { benchBase, holdHere, markHere } from './timingEdits.ts';
import { atInPoint } from '../../timing/marks/settingsChange.ts';

/** Rows of one page key. */
const PAGE_STEPS = 10;

/** Moves the playhead to a step (index from 0), held inside the plan; whatever frame was looked at before is left. */
export function goToStep(index: number): void {
  const count = session.getState().plan?.stepCount ?? 0;
  if (count > 0) setPlayhead({ step: Math.max(0, Math.min(count - 1, index)), nudge: 0 });
}

/** Moves by source frames. */
function nudge(by: number): void {
  const { plan } = session.getState();
  const timesS = frameTimes();
  const now = frameAtPlayhead(timesS, plan, playhead.getState());
  if (now !== undefined) setPlayhead(playheadAtFrame(timesS, plan, now.frame + by));
}

/** Sets an end of the take to the frame that is shown. */
function cutHere(end: 'inS' | 'outS'): void {
  const timesS = frameTimes();
  const now = frameAtPlayhead(timesS, session.getState().plan, playhead.getState());
  if (now === undefined) return;
  const { inS, outS } = currentBook().settings;
  const timeS = Math.round(now.timeS * 1e6) / 1e6;
  // An in point behind the out point would leave nothing: the other end gives way.
  const base = benchBase();
  if (end === 'inS') {
    const settings = { inS: timeS, ...(outS !== null && outS <= timeS ? { outS: null } : {}) };
    // marks keep their place in the performance
    editBook((book) => ({ ...book, settings: { ...book.settings, ...settings }, timing: base === null || book.timing.marks.length === 0 ? book.timing : atInPoint(book.timing, base, timeS) }));
  }
  else editSettings({ outS: timeS, ...(inS !== null && inS >= timeS ? { inS: null } : {}) });
}

/** Goes to a screen by its address, so that the browser's back button works. */
export function showScreen(screen: Screen): void {
  location.hash = `#/${screen}`;
}

/** Sets the height of the ladder's rows, px. */
export function setRowPx(rowPx: number): void {
  session.setState({ rowPx });
}

const COMMANDS: Readonly<Record<CommandName, () => void>> = {
  showTake: () => showScreen('take'),
  showPuppet: () => showScreen('puppet'),
  showPace: () => showScreen('pace'),
  showPoise: () => showScreen('poise'),
  showSheet: () => showScreen('sheet'),
  toggleRed: () => session.setState((s) => ({ red: !s.red })),
  toggleHelp: () => session.setState((s) => ({ helpOpen: !s.helpOpen })),
  stepUp: () => goToStep(playhead.getState().step - 1),
  stepDown: () => goToStep(playhead.getState().step + 1),
  pageUp: () => goToStep(playhead.getState().step - PAGE_STEPS),
  pageDown: () => goToStep(playhead.getState().step + PAGE_STEPS),
  firstStep: () => goToStep(0),
  lastStep: () => goToStep(Number.MAX_SAFE_INTEGER),
  goToStep: () => document.querySelector<HTMLInputElement>('#go-to-step')?.focus(),
  frameBack: () => nudge(-1),
  frameOn: () => nudge(1),
  rowsTaller: () => setRowPx(nextRowPx(session.getState().rowPx, 1)),
  rowsLower: () => setRowPx(nextRowPx(session.getState().rowPx, -1)),
  inHere: () => cutHere('inS'),
  outHere: () => cutHere('outS'),
  openDemo: () => attempt(() => openBundled(DEMO_CLIP)),
  fitBody: fitAgain,
  takeCutoff: () => {
    const cutoffHz = session.getState().cutoff?.cutoffHz ?? null;
    if (cutoffHz !== null) editSettings({ cutoffHz });
  },
  stopWork: () => {
    if (session.getState().job !== null) stopWork();
    else dismissProblem();
  },
  markHere: () => markHere(),
  holdHere: () => holdHere(),
  nextMark: () => goToMark(1),
  formerMark: () => goToMark(-1),
  playOrTap,
  nextPaceView: () => paceView.setState(({ view }) => ({ view: PACE_VIEWS[(PACE_VIEWS.indexOf(view) + 1) % PACE_VIEWS.length]! })),
  ...CORRECTING_COMMANDS,
  ...PUPPET_COMMANDS,
  toggleShot: () => {
    const { plan } = session.getState();
    if (plan !== null && plan.stepCount > 0) toggleShot(playhead.getState().step + 1);
  },
  undo: undoBook,
  redo: redoBook,
  openFile: () => attempt(askAndOpen),
  saveBook: () => attempt(saveBookFile),
  newBook: () => {
    // A fit gives way by itself, and comes back with an undo.
    if (changesBench(session.getState().job)) stopWork();
    editBook(() => newBook(), { label: 'new book' });
    showScreen('take');
  },
  saveIncrements: () => attempt(saveIncrements),
  savePlan: () => attempt(savePlan),
};

/** Keys that are Pace's alone. */
const PACE_COMMANDS: ReadonlySet<CommandName> = new Set(['markHere', 'nextMark', 'formerMark', 'holdHere', 'playOrTap', 'nextPaceView']);

/** Whether a command has anything to do now; what it offers is disabled otherwise. */
export function canRun(name: CommandName): boolean {
  const { plan, job } = session.getState();
  const { history } = bookStore.getState();
  switch (name) {
    case 'undo':
      return history.past.length > 0;
    case 'redo':
      return history.future.length > 0;
    case 'saveIncrements':
    case 'savePlan':
      return plan !== null && job === null;
    case 'markHere':
    case 'nextMark':
    case 'formerMark':
    case 'holdHere':
    case 'playOrTap':
      return plan !== null && plan.stepCount > 0;
    case 'takeCutoff': {
      const cutoffHz = session.getState().cutoff?.cutoffHz ?? null;
      return cutoffHz !== null && cutoffHz !== currentBook().settings.cutoffHz;
    }
    case 'fitBody':
      return canFit();
    case 'openDemo':
      // A stray key must not put another take in the place of one's own; the Take screen has a button for that.
      return currentBook().take === null;
    default:
      return true;
  }
}

/** Whether the 3D puppet is in sight, so that its keys mean something. */
function puppetIsShown(): boolean {
  const { screen } = session.getState();
  return screen === 'puppet' || screen === 'poise';
}

/** Runs a command if it has anything to do; returns whether the key press was its own. */
export function runCommand(name: CommandName): boolean {
  // Elsewhere these keys are the page's: the arrows scroll sideways.
  if (isCorrectingCommand(name) && session.getState().screen !== 'take') return false;
  if (PACE_COMMANDS.has(name) && session.getState().screen !== 'pace') return false;
  if (isPuppetCommand(name) && !puppetIsShown()) return false;
  if (canRun(name)) COMMANDS[name]();
  return true;
}
