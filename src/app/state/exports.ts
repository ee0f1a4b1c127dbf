/** What is taken away from the bench: the increments as a table, the plan as a document. */
import { NudgebookError } from '../../errors.ts';
import { bodyFacts } from '../../export/planJson.ts';
import { describeRate } from '../../footage/rateVerdict.ts';
import { foundCount } from '../../pose/track.ts';
import { bodyFor } from '../fit/fitting.ts';
import { writeFile } from '../save/writeFile.ts';
import { currentBook } from './bookStore.ts';
import { download, fileNameOf } from './files.ts';
import { planSettled } from './planning.ts';
import { session } from './session.ts';

/** The plan of the present settings, which may still be on its way. */
async function wholePlan(): Promise<NonNullable<ReturnType<typeof session.getState>['plan']>> {
  await planSettled();
  const { plan, job } = session.getState();
  if (plan === null) throw new NudgebookError('bad-argument', 'There is no plan to save yet.', 'Open a clip first.');
  if (job !== null) {
    const work = { opening: 'the clip has been read', posing: 'posing has ended', fitting: 'the body is fitted' }[job.kind];
    throw new NudgebookError('bad-argument', 'The plan is not complete yet.', `Wait until ${work}, then save.`);
  }
  return plan;
}

/** Saves increments.csv. */
export async function saveIncrements(): Promise<void> {
  const plan = await wholePlan();
  const { title } = currentBook();
  download(await writeFile({ kind: 'increments', plan }), `${fileNameOf(title)} increments.csv`);
}

/** Saves plan.json. */
export async function savePlan(): Promise<void> {
  const plan = await wholePlan();
  const { take, settings, timing, title } = currentBook();
  const { track, fit } = session.getState();
  if (take === null || track === null) throw new NudgebookError('bad-argument', 'There is no take in this book.', 'Open a clip first.');
  const file = await writeFile({
    kind: 'plan',
    plan,
    take: {
      name: take.name,
      hash: take.hash,
      durationS: take.durationS,
      frames: take.frames,
      framesPosed: foundCount(track),
      width: take.widthPx,
      height: take.heightPx,
      model: track.model,
      rateText: describeRate(take.rate),
    },
    settings,
    body: fit === null ? null : bodyFacts(fit.body),
    timing,
    track,
    fitted: bodyFor(track, settings.captureFactor),
  });
  download(file, `${fileNameOf(title)} plan.json`);
}
