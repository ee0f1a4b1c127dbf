/**
 * What the page and the worker that writes files say to each other. One worker writes one file. It gives it back as a Blob,
 * whose content need not cross over to the page at all.
 */
import type { Book } from '../../book/document.ts';
import type { ErrorData } from '../../errors.ts';
import type { ExportTake } from '../../export/exportTake.ts';
import type { PlanJsonBody } from '../../export/planJson.ts';
import type { FittedBody } from '../../motion/fit/fittedBody.ts';
import type { Plan } from '../../plan/plan.ts';
import type { PlanSettings } from '../../plan/settings.ts';
import type { Track } from '../../pose/track.ts';
import type { TimingSettings } from '../../timing/timingSettings.ts';

export type ToSaveWorker =
  | { readonly kind: 'increments'; readonly plan: Plan }
  | {
    readonly kind: 'plan'; readonly plan: Plan; readonly take: ExportTake; readonly settings: PlanSettings; readonly body: PlanJsonBody | null;
    readonly timing: TimingSettings;
    /** What the plan was made of: its readouts are worked out again from it. */
    readonly track: Track; readonly fitted: FittedBody | null;
  }
  | { readonly kind: 'book'; readonly book: Book; readonly track: Track | null };

export type FromSaveWorker =
  | { readonly kind: 'written'; readonly file: Blob }
  | { readonly kind: 'failed'; readonly error: ErrorData };
