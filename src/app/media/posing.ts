/**
 * Poses the clip on the bench, with progress, and shows the track while it grows.
 */
import type { ModelSize, Track } from '../../pose/track.ts';
import { currentBook, editBook } from '../state/bookStore.ts';
import { repaintPlayhead } from '../state/playhead.ts';
import { showProblem } from '../state/problems.ts';
import { changesBench, say, session } from '../state/session.ts';
import { addTrack } from './tracks.ts';

/** How often the growing track makes a new plan, and how often the figures of progress change. */
const PLAN_EVERY_MS = 700;
const TELL_EVERY_MS = 200;

let underWay: Promise<void> = Promise.resolve();

/** Stops whatever is under way. */
export function stopWork(): void {
  session.getState().job?.abort.abort();
}

/** Stops posing and waits until it has cleared its place. */
export async function endPosing(): Promise<void> {
  if (session.getState().job?.kind === 'posing') stopWork();
  await underWay;
}

/**
 * Poses the footage on the bench with a model. Does nothing without footage. Ends quietly when cancelled; the former track comes back.
 */
export async function poseFootage(model: ModelSize): Promise<void> {
  underWay = poseNow(model);
  await underWay;
}

async function poseNow(model: ModelSize): Promise<void> {
  const { footage, track: former, job } = session.getState();
  if (footage === null || changesBench(job)) return;
  const { facts, source } = footage;
  const abort = new AbortController();
  const total = facts.timesS.length;
  session.setState({
    job: { kind: 'posing', name: facts.name, model, done: 0, total, framesPerS: 0, remainingS: Number.NaN, abort },
    problem: null,
  });
  say(`Posing ${facts.name}, ${total} frames.`);
  let plannedAtMs = -Infinity;
  let toldAtMs = -Infinity;
  let finished: Track | null = null;
  try {
    const { runPose } = await import('../../pose/poseRun.ts');
    const { requirePerson } = await import('../../pose/requirePerson.ts');
    const { track } = await runPose({
      source,
      facts,
      model,
      signal: abort.signal,
      onProgress: ({ doneFrames, totalFrames, framesPerS, remainingS, track: growing }) => {
        const nowMs = performance.now();
        if (nowMs - toldAtMs >= TELL_EVERY_MS || doneFrames === totalFrames) {
          toldAtMs = nowMs;
          const now = session.getState().job;
          if (now?.kind === 'posing') session.setState({ job: { ...now, done: doneFrames, total: totalFrames, framesPerS, remainingS } });
          repaintPlayhead();
        }
        if (nowMs - plannedAtMs >= PLAN_EVERY_MS && growing.found.includes(1)) {
          plannedAtMs = nowMs;
          // A new object each time: the planner keeps its stages by identity, and the arrays are filled in place.
          session.setState({ track: { ...growing } });
        }
      },
    });
    requirePerson(track);
    finished = track;
    await addTrack(facts.hash, track);
    session.setState({ track });
    editBook((book) => (book.model === model || book.take?.hash !== facts.hash ? book : { ...book, model }));
    say(`Posed ${facts.name}.`);
  } catch (thrown) {
    showProblem(thrown);
  } finally {
    const stillHere = currentBook().take?.hash === facts.hash;
    session.setState({ job: null, ...(finished === null && stillHere ? { track: former } : {}) });
  }
}
