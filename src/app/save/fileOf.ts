/** The content of each file that can be saved. */
import { writeBookFile } from '../../book/bookFile.ts';
import { incrementsCsv } from '../../export/incrementsCsv.ts';
import { planToJson } from '../../export/planJson.ts';
import { createPlanner } from '../../plan/makePlan.ts';
import type { Poses } from '../../timing/poses.ts';
import { sampleMotion } from '../../timing/sampleMotion.ts';
import type { ToSaveWorker } from './saveProtocol.ts';

const TYPES: Readonly<Record<ToSaveWorker['kind'], string>> = { increments: 'text/csv', plan: 'application/json', book: 'application/json' };

/** The performer at the plan's steps, as the plan was made: same track, body and settings. */
function posesOf({ plan, track, settings, fitted }: Extract<ToSaveWorker, { kind: 'plan' }>): Poses {
  return sampleMotion(createPlanner().motion(track, settings, fitted), plan.sourceTimeS);
}

function textOf(asked: ToSaveWorker): string {
  switch (asked.kind) {
    case 'increments':
      return incrementsCsv(asked.plan);
    case 'plan':
      return `${JSON.stringify(planToJson(asked.plan, asked.take, asked.settings, asked.body, asked.timing, posesOf(asked)), null, 1)}\n`;
    case 'book':
      return writeBookFile(asked.book, asked.track);
  }
}

/** @throws NudgebookError as the writers of the files say */
export function fileOf(asked: ToSaveWorker): Blob {
  return new Blob([textOf(asked)], { type: TYPES[asked.kind] });
}
