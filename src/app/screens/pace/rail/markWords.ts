/** What a mark is called. */
import type { TimeMark } from '../../../../timing/timingSettings.ts';

/** Words of a mark that has no name of its own. */
const KIND_WORDS: Readonly<Record<TimeMark['kind'], string>> = { extreme: 'extreme', start: 'start', end: 'end', tap: 'tap', placed: 'mark' };

export function markWords({ name, kind }: TimeMark): string {
  return name === '' ? KIND_WORDS[kind] : name;
}

/** As edits of it are labelled: "mark", "mark hand on the jar". */
export function markLabel(mark: TimeMark): string {
  return mark.name === '' && mark.kind === 'placed' ? 'mark' : `mark ${markWords(mark)}`;
}
