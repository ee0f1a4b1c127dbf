/** The content of each file that can be saved. */
import { writeBookFile } from '../../book/bookFile.ts';
import { incrementsCsv } from '../../export/incrementsCsv.ts';
import { planToJson } from '../../export/planJson.ts';
import type { ToSaveWorker } from './saveProtocol.ts';

const TYPES: Readonly<Record<ToSaveWorker['kind'], string>> = { increments: 'text/csv', plan: 'application/json', book: 'application/json' };

function textOf(asked: ToSaveWorker): string {
  switch (asked.kind) {
    case 'increments':
      return incrementsCsv(asked.plan);
    case 'plan':
      return `${JSON.stringify(planToJson(asked.plan, asked.take, asked.settings, asked.body, asked.timing), null, 1)}\n`;
    case 'book':
      return writeBookFile(asked.book, asked.track);
  }
}

/** @throws NudgebookError as the writers of the files say */
export function fileOf(asked: ToSaveWorker): Blob {
  return new Blob([textOf(asked)], { type: TYPES[asked.kind] });
}
