import { beforeEach, describe, expect, it } from 'vitest';
import { bookStore, currentBook, editBook, editSettings, redoBook, startWithBook, toggleShot, undoBook } from '../../src/app/state/bookStore.ts';
import { canRun, goToStep, runCommand } from '../../src/app/state/commands.ts';
import { COMMAND_NAMES } from '../../src/app/state/commandNames.ts';
import { playhead, setPlayhead } from '../../src/app/state/playhead.ts';
import { session } from '../../src/app/state/session.ts';
import { newBook } from '../../src/book/document.ts';
import { undoLabel } from '../../src/book/history.ts';
import { samplePlan } from '../charts/samplePlan.ts';

beforeEach(() => {
  startWithBook(newBook());
  session.setState({ plan: samplePlan(), track: null, footage: null, job: null });
  setPlayhead({ step: 0, nudge: 0 });
});

describe('the book', () => {
  it('takes every edit back, one thing at a time', () => {
    editSettings({ rate: 12 });
    editSettings({ on: 3 });
    expect(currentBook().settings).toMatchObject({ rate: 12, on: 3 });
    undoBook();
    expect(currentBook().settings).toMatchObject({ rate: 12, on: 2 });
    undoBook();
    expect(currentBook().settings.rate).toBe(24);
    redoBook();
    expect(currentBook().settings.rate).toBe(12);
  });

  it('does not count a setting that stays as it was', () => {
    editSettings({ rate: 24 });
    expect(bookStore.getState().history.past).toHaveLength(0);
  });

  it('makes one undo step of a drag', () => {
    for (const cutoffHz of [6.5, 7, 7.5]) editSettings({ cutoffHz }, { key: 'cutoffHz' });
    expect(bookStore.getState().history.past).toHaveLength(1);
    undoBook();
    expect(currentBook().settings.cutoffHz).toBe(3.5);
  });

  it('says what undo would take back', () => {
    editBook((book) => ({ ...book, title: 'Night bakery' }), { label: 'title' });
    expect(undoLabel(bookStore.getState().history)).toBe('title');
  });

  it('keeps photographed steps in order and takes a mark away again', () => {
    toggleShot(5);
    toggleShot(2);
    expect(currentBook().shotSteps).toEqual([2, 5]);
    toggleShot(5);
    expect(currentBook().shotSteps).toEqual([2]);
    undoBook();
    expect(currentBook().shotSteps).toEqual([2, 5]);
  });
});

describe('commands', () => {
  it('move the playhead and stop at both ends', () => {
    runCommand('stepUp');
    expect(playhead.getState().step).toBe(0);
    runCommand('stepDown');
    runCommand('stepDown');
    expect(playhead.getState().step).toBe(2);
    runCommand('pageDown');
    expect(playhead.getState().step).toBe(5);
    runCommand('firstStep');
    expect(playhead.getState().step).toBe(0);
    runCommand('lastStep');
    expect(playhead.getState().step).toBe(5);
  });

  it('leave the frame that was looked at when the step changes', () => {
    setPlayhead({ step: 1, nudge: 2 });
    goToStep(2);
    expect(playhead.getState()).toEqual({ step: 2, nudge: 0 });
  });

  it('mark the step of the playhead', () => {
    goToStep(3);
    runCommand('toggleShot');
    expect(currentBook().shotSteps).toEqual([4]);
  });

  it('do nothing without a plan', () => {
    session.setState({ plan: null });
    runCommand('stepDown');
    runCommand('toggleShot');
    expect(playhead.getState().step).toBe(0);
    expect(currentBook().shotSteps).toEqual([]);
  });

  it('are offered only where they have something to do', () => {
    expect(canRun('undo')).toBe(false);
    editSettings({ rate: 25 });
    expect(canRun('undo')).toBe(true);
    expect(canRun('saveIncrements')).toBe(true);
    session.setState({ plan: null });
    expect(canRun('saveIncrements')).toBe(false);
  });

  it('change the height of rows level by level', () => {
    session.setState({ rowPx: 24 });
    runCommand('rowsTaller');
    expect(session.getState().rowPx).toBe(28);
    runCommand('rowsLower');
    runCommand('rowsLower');
    expect(session.getState().rowPx).toBe(20);
  });

  it('all have a name that can be asked for', () => {
    for (const name of COMMAND_NAMES) expect(typeof canRun(name)).toBe('boolean');
  });
});
