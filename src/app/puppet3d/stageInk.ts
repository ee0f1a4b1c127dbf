/** What the puppet is drawn with, read from the page's own colours. */
import type { NoteInk } from '../../charts/figure/notes.ts';
import type { StageInk } from './stage.ts';

const STAGE: Readonly<Record<keyof StageInk, string>> = {
  body: '--paper', joint: '--line-strong', edge: '--picture-ground', moved: '--lamp', unsure: '--problem-edge',
  before: '--paper-dim', after: '--lamp', gridFine: '--line', gridStrong: '--line-strong',
};

export function stageInkOf(element: Element): StageInk {
  const style = getComputedStyle(element);
  return Object.fromEntries(Object.entries(STAGE).map(([name, token]) => [name, style.getPropertyValue(token).trim()])) as unknown as StageInk;
}

export function noteInkOf(element: Element): NoteInk {
  const style = getComputedStyle(element);
  const token = (name: string): string => style.getPropertyValue(name).trim();
  return { words: token('--paper'), dim: token('--paper-dim'), edge: token('--picture-ground'), lamp: token('--lamp'), fontFamily: style.fontFamily };
}
