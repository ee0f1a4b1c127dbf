/** Edits of what is set for the balance: each one an edit of the book with its own words. */
import type { PoiseSettings } from '../../balance/poiseSettings.ts';
import type { Plan } from '../../plan/plan.ts';
import { editBook, type EditWords } from './bookStore.ts';

export function editPoise(change: (poise: PoiseSettings) => PoiseSettings, words: EditWords): void {
  editBook((book) => {
    const poise = change(book.poise);
    return poise === book.poise ? book : { ...book, poise };
  }, words);
}

/** Moments of the take from the beginning of one step to the end of another (from 0, both included), container seconds. */
export function spanOfSteps({ sourceTimeS, stepCount }: Plan, from: number, to: number): { readonly fromS: number; readonly toS: number } {
  const [a, b] = [Math.min(from, to), Math.max(from, to)].map((s) => Math.max(0, Math.min(stepCount - 1, s))) as [number, number];
  // half-way to the neighbours: a step is in a span whatever the last digit of its time
  const before = a === 0 ? sourceTimeS[0]! : (sourceTimeS[a - 1]! + sourceTimeS[a]!) / 2;
  const after = b === stepCount - 1 ? sourceTimeS[b]! : (sourceTimeS[b]! + sourceTimeS[b + 1]!) / 2;
  return { fromS: Math.max(0, before), toS: after };
}
