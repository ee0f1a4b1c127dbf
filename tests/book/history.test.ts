import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { describeChange } from '../../src/book/describeChange.ts';
import { newBook, type Book } from '../../src/book/document.ts';
import {
  canRedo, canUndo, COALESCE_MS, edit, HISTORY_LIMIT, redo, redoLabel, startHistory, undo, undoLabel, type History,
} from '../../src/book/history.ts';
import type { Corrections } from '../../src/motion/corrections/corrections.ts';
import { marlaBook } from './examples.ts';

function titled(title: string): Book {
  return { ...newBook(), title };
}

function rated(book: Book, rate: number): Book {
  return { ...book, settings: { ...book.settings, rate } };
}

/** What a history holds, apart from what the next edit may join. */
function held(history: History): unknown {
  return { past: history.past, present: history.present, future: history.future };
}

/**
 * A naive model: all books in a row, and where we stand. An edit drops what lies after and adds one,
 * or replaces the one we stand on when it joins.
 */
class Model {
  books: string[] = ['start'];
  at = 0;
  last: { key: string; atMs: number } | null = null;

  edit(title: string, key: string | undefined, atMs: number): void {
    const joins = this.at > 0 && key !== undefined && this.last?.key === key && atMs - this.last.atMs <= COALESCE_MS;
    this.books = this.books.slice(0, joins ? this.at : this.at + 1);
    this.books.push(title);
    this.at = this.books.length - 1;
    this.last = key === undefined ? null : { key, atMs };
  }

  step(by: number): void {
    const to = this.at + by;
    if (to < 0 || to >= this.books.length) return;
    this.at = to;
    this.last = null;
  }
}

const anyAction = fc.oneof(
  { weight: 5, arbitrary: fc.record({ kind: fc.constant('edit' as const), key: fc.constantFrom(undefined, 'rate', 'title'), waitMs: fc.constantFrom(0, 1, 400, COALESCE_MS, COALESCE_MS + 1, 5000) }) },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant('undo' as const) }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('redo' as const) }) },
);

describe('history', () => {
  test('any sequence of edits, undos and redos equals the naive model', () => {
    let joined = 0;
    fc.assert(
      fc.property(fc.array(anyAction, { maxLength: 60 }), (actions) => {
        let history = startHistory(titled('start'));
        const model = new Model();
        let atMs = 0;
        actions.forEach((action, i) => {
          if (action.kind === 'edit') {
            atMs += action.waitMs;
            const before = model.books.length;
            model.edit(`edit ${i}`, action.key, atMs);
            if (model.books.length === before) joined += 1;
            history = edit(history, titled(`edit ${i}`), { atMs, ...(action.key === undefined ? {} : { key: action.key }) });
          } else {
            model.step(action.kind === 'undo' ? -1 : 1);
            history = action.kind === 'undo' ? undo(history) : redo(history);
          }
          const titles = [...history.past.map((step) => step.book), history.present, ...history.future.map((step) => step.book)].map((book) => book.title);
          expect(titles).toEqual(model.books);
          expect(history.present.title).toBe(model.books[model.at]);
          expect(canUndo(history)).toBe(model.at > 0);
          expect(canRedo(history)).toBe(model.at < model.books.length - 1);
        });
      }),
      { seed: 20261, numRuns: 400 },
    );
    // The model must have met joined edits, or the property says nothing of them.
    expect(joined).toBeGreaterThan(50);
  });

  test('undo then redo, and redo then undo, are the identity', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 20 }), fc.nat({ max: 20 }), (edits, back) => {
        let history = startHistory(titled('start'));
        for (let i = 0; i < edits; i += 1) history = edit(history, titled(`${i}`), { atMs: i });
        for (let i = 0; i < back; i += 1) history = undo(history);
        if (canUndo(history)) expect(held(redo(undo(history)))).toEqual(held(history));
        if (canRedo(history)) expect(held(undo(redo(history)))).toEqual(held(history));
      }),
      { seed: 20262 },
    );
  });

  test('no edit is lost: undone to the start and redone to the end, every book comes by once', () => {
    let history = startHistory(titled('start'));
    for (let i = 0; i < 100; i += 1) history = edit(history, titled(`${i}`), { atMs: i * 10 });
    const back: string[] = [];
    for (; canUndo(history); history = undo(history)) back.push(history.present.title);
    expect(back).toEqual(Array.from({ length: 100 }, (_, i) => `${99 - i}`));
    expect(history.present.title).toBe('start');
    const forth: string[] = [];
    while (canRedo(history)) {
      history = redo(history);
      forth.push(history.present.title);
    }
    expect(forth).toEqual(back.reverse());
  });

  test('nothing to undo or redo: the same history', () => {
    const history = startHistory(newBook());
    expect(undo(history)).toBe(history);
    expect(redo(history)).toBe(history);
    expect(undoLabel(history)).toBeNull();
    expect(redoLabel(history)).toBeNull();
  });

  test('an edit that changes nothing is none', () => {
    const history = startHistory(newBook());
    expect(edit(history, history.present, { atMs: 0 })).toBe(history);
  });

  test('a long drag is one step, however long, as long as no pause exceeds 800 ms; its label tells the whole way', () => {
    const book = newBook();
    let history = startHistory(book);
    for (let rate = 23; rate >= 12; rate -= 1) history = edit(history, rated(book, rate), { key: 'rate', atMs: (24 - rate) * COALESCE_MS });
    expect(history.past.length).toBe(1);
    expect(undoLabel(history)).toBe('rate 24 → 12');
    history = undo(history);
    expect(history.present).toBe(book);
    expect(redoLabel(history)).toBe('rate 24 → 12');
  });

  test('after an undo or a redo the next edit does not join, whatever its key', () => {
    const book = newBook();
    let history = edit(startHistory(book), rated(book, 20), { key: 'rate', atMs: 0 });
    history = edit(history, titled('x'), { atMs: 10 });
    history = edit(undo(history), rated(book, 19), { key: 'rate', atMs: 20 });
    expect(history.past.length).toBe(2);
  });

  test('a clock that goes backwards joins nothing', () => {
    let history = edit(startHistory(titled('a')), titled('b'), { key: 't', atMs: 1000 });
    history = edit(history, titled('c'), { key: 't', atMs: 999 });
    expect(history.past.length).toBe(2);
  });

  test('a label that is given is kept, of joined edits the latest', () => {
    let history = edit(startHistory(titled('a')), titled('b'), { key: 't', atMs: 0, label: 'first' });
    history = edit(history, titled('c'), { key: 't', atMs: 1, label: 'second' });
    expect(undoLabel(history)).toBe('second');
  });

  test('is bounded: the oldest edits are let go, the latest 500 stay', () => {
    let history = startHistory(titled('start'));
    for (let i = 0; i < HISTORY_LIMIT + 7; i += 1) history = edit(history, titled(`${i}`), { atMs: i });
    expect(history.past.length).toBe(500);
    while (canUndo(history)) history = undo(history);
    expect(history.present.title).toBe('6');
    expect(history.future.length).toBe(500);
  });
});

describe('describeChange', () => {
  const book = newBook();
  const corrected = (change: Partial<Corrections>): Book => ({ ...book, corrections: { ...book.corrections, ...change } });
  test.each<[string, Book]>([
    ['no change', { ...book }],
    ['rate 24 → 12', rated(book, 12)],
    ['on twos → threes', { ...book, settings: { ...book.settings, on: 3 } }],
    ['smoother penalised → butterworth', { ...book, settings: { ...book.settings, smoother: 'butterworth' } }],
    ['smoothing 3.5 Hz → off', { ...book, settings: { ...book.settings, cutoffHz: 0 } }],
    ['in point start → 0.333 s', { ...book, settings: { ...book.settings, inS: 1 / 3 } }],
    ['mirror off → on', { ...book, settings: { ...book.settings, mirror: true } }],
    ['title “Untitled” → “Marla”', titled('Marla')],
    ['take one-leg-reach.webm', { ...book, take: marlaBook().take }],
    ['armature Marla', { ...book, armature: marlaBook().armature }],
    ['model full → lite', { ...book, model: 'lite' }],
    ['left elbow placed at 1.23 s', corrected({ placed: [{ timeS: 1.23, landmark: 'leftElbow', x: 0.1, y: 0.2 }] })],
    ['left toe placed at 0.00 s', corrected({ placed: [{ timeS: 0, landmark: 'leftFootIndex', x: 0.1, y: 0.2 }] })],
    ['right knee 12.5° at 1.30 s', corrected({ angles: [{ timeS: 1.3, joint: 'rightKnee', angleDeg: 12.5 }] })],
    ['head turn -20° at 1.30 s', corrected({ angles: [{ timeS: 1.3, joint: 'neck', angleDeg: -20 }] })],
    ['right arm lower bone turned in depth from 0.50 s to 0.90 s', corrected({ depthFlips: [{ limb: 'rightArm', bone: 'lower', fromS: 0.5, toS: 0.9 }] })],
    ['left leg turned in depth from 0.50 s to 0.90 s', corrected({ depthFlips: [{ limb: 'leftLeg', bone: 'both', fromS: 0.5, toS: 0.9 }] })],
    ['the legs swapped from 2.00 s to 2.10 s', corrected({ swaps: [{ fromS: 2, toS: 2.1, part: 'legs', swapped: true }] })],
    ['left and right not swapped from 2.00 s to 2.10 s', corrected({ swaps: [{ fromS: 2, toS: 2.1, part: 'all', swapped: false }] })],
    ['left foot free from 0.00 s to 3.00 s', corrected({ contacts: [{ foot: 'left', fromS: 0, toS: 3, stands: false }] })],
    ['camera pitch 4°', corrected({ camera: { pitchDeg: 4, rollDeg: null, verticalFovDeg: null } })],
    ['no slate pose', corrected({ slate: { kind: 'none' } })],
    ['step 4 photographed', { ...book, shotSteps: [4] }],
    ['photographed steps', { ...book, shotSteps: [4, 5] }],
    ['note on step 9', { ...book, notes: { '9': 'x' } }],
    ['rate 24 → 12, step 1 photographed', { ...rated(book, 12), shotSteps: [1] }],
    ['title “Untitled” → “Marla reaches the jar”, take one-leg-reach.webm and 34 more', marlaBook()],
  ])('%s', (words, after) => {
    expect(describeChange(book, after)).toBe(words);
  });

  test('corrections that changed, were taken back, or are many', () => {
    const elbow = { timeS: 1, landmark: 'leftElbow', x: 0.1, y: 0.2 } as const;
    const one = corrected({ placed: [elbow] });
    expect(describeChange(one, corrected({ placed: [{ ...elbow, x: 0.3 }] }))).toBe('left elbow placed at 1.00 s');
    expect(describeChange(one, book)).toBe('taken back: left elbow placed at 1.00 s');
    expect(describeChange(book, corrected({ placed: [elbow, { ...elbow, timeS: 2 }] }))).toBe('placed joints');
    expect(describeChange(corrected({ camera: { pitchDeg: 4, rollDeg: null, verticalFovDeg: null } }), book)).toBe('camera pitch estimated');
  });

  test('taking back a photographed step', () => {
    expect(describeChange({ ...book, shotSteps: [1, 2] }, { ...book, shotSteps: [1] })).toBe('step 2 not photographed');
  });
});
