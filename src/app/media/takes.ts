/**
 * Clips in and out of the book: opening one, linking one again, and keeping footage and track true to the book however it
 * changes (an opened book, an undo, a reload).
 */
import { type Book, newBook, takeRefOf } from '../../book/document.ts';
import { matchesTake } from '../../book/relink.ts';
import { NO_CORRECTIONS } from '../../motion/corrections/corrections.ts';
import { NudgebookError } from '../../errors.ts';
import type { ClipFacts } from '../../footage/facts.ts';
import { openClip } from '../../footage/openClip.ts';
import { absoluteSource, type ClipSource } from '../../footage/source.ts';
import { bookStore, currentBook, editBook } from '../state/bookStore.ts';
import { setPlayhead } from '../state/playhead.ts';
import { attempt, showProblem } from '../state/problems.ts';
import { MARLA } from '../../puppet/examples/human.ts';
import { changesBench, say, session } from '../state/session.ts';
import { BUNDLED_CLIPS, clipAddress, clipTrackAddress, DEMO_CLIP } from './bundledClips.ts';
import { clearFootage, knownClip, showFootage } from './footage.ts';
import { endPosing, poseFootage } from './posing.ts';
import { fetchShipped, findTrack, trackAtHand } from './tracks.ts';

/** Name of a take for a title: a bundled clip's own, else the file's without its ending. */
function titleOfTake(name: string, address: string | null): string {
  const bundled = BUNDLED_CLIPS.find((clip) => clipAddress(clip.name) === address);
  if (bundled !== undefined) return bundled.title;
  const dot = name.lastIndexOf('.');
  return dot > 0 ? name.slice(0, dot) : name;
}

/** A title that nobody chose goes with the take; one that somebody typed stays. */
function titleFor(book: Book, name: string, address: string | null): string {
  const unchosen = book.title === newBook().title || (book.take !== null && book.title === titleOfTake(book.take.name, book.take.address));
  return unchosen ? titleOfTake(name, address) : book.title;
}

let reading: AbortController | null = null;

/** Reads a clip's index; a reading that is under way gives way to it. Shown as work unless something is being posed. */
async function readClip(source: ClipSource): Promise<ClipFacts> {
  reading?.abort();
  const abort = new AbortController();
  reading = abort;
  if (session.getState().job?.kind !== 'posing') session.setState({ job: { kind: 'opening', name: source.name, abort } });
  try {
    return await openClip(source, { signal: abort.signal });
  } finally {
    const { job } = session.getState();
    if (job?.abort === abort) session.setState({ job: null });
  }
}

/**
 * Opens a clip as the take of the book. If it is the take already, only its pictures are linked again.
 *
 * @param address own-origin address of a bundled clip, else `null`
 */
async function openTake(source: ClipSource, address: string | null): Promise<void> {
  session.setState({ problem: null });
  let facts: ClipFacts;
  try {
    facts = await readClip(source);
  } catch (thrown) {
    showProblem(thrown);
    return;
  }
  // Only now, because a file that turns out to be none must not end a run that may have taken minutes.
  await endPosing();
  try {
    await showFootage(source, facts);
    if (currentBook().take?.hash !== facts.hash) {
      const take = takeRefOf(facts, address);
      setPlayhead({ step: 0, nudge: 0 });
      editBook((book) => ({
        ...book,
        title: titleFor(book, facts.name, address),
        take,
        settings: { ...book.settings, inS: null, outS: null, captureFactor: 1, mirror: false },
        armature: book.armature ?? (address === clipAddress(DEMO_CLIP) ? MARLA : null),
        corrections: NO_CORRECTIONS,
        shotSteps: [],
        notes: {},
      }), { label: `take ${facts.name}` });
    }
    say(`Opened ${facts.name}, ${facts.timesS.length} frames.`);
  } catch (thrown) {
    showProblem(thrown);
    return;
  }
  const { take, model } = currentBook();
  if (take === null) return;
  const track = await findTrack(take, model);
  if (track !== null) session.setState({ track });
  else await poseFootage(model);
}

/** Opens one of the clips that come with the program. */
export async function openBundled(name: string): Promise<void> {
  const clip = BUNDLED_CLIPS.find((c) => c.name === name);
  if (clip === undefined) {
    const names = BUNDLED_CLIPS.map((c) => c.name).join(', ');
    showProblem(new NudgebookError('file-missing', `There is no clip named “${name}” with this program.`, `The clips are: ${names}.`));
    return;
  }
  // Asked for at once, so that it is there when the clip's index has been read; what goes wrong is said when it is needed.
  const shipped = clipTrackAddress(clip.name);
  if (shipped !== null) fetchShipped(shipped).catch(() => undefined);
  await openTake(bundledSource(clip.name), clipAddress(clip.name));
}

function bundledSource(name: string): ClipSource {
  return absoluteSource({ kind: 'url', url: clipAddress(name), name: `${name}.webm` }, document.baseURI);
}

/** Opens a file that a person chose or dropped as the take. */
export async function openTakeFile(file: File): Promise<void> {
  await openTake({ kind: 'blob', blob: file, name: file.name }, null);
}

/** Links the footage of the book's take again; another clip is refused with how it differs. */
export async function relinkFile(file: File): Promise<void> {
  const { take } = currentBook();
  if (take === null) return openTakeFile(file);
  const source: ClipSource = { kind: 'blob', blob: file, name: file.name };
  session.setState({ problem: null });
  try {
    const facts = await readClip(source);
    const match = matchesTake(take, facts.hash, facts);
    if (match.kind === 'different') throw match.error;
    await showFootage(source, facts);
    say('The footage is linked again.');
  } catch (thrown) {
    showProblem(thrown);
  }
}

/** Brings footage and track to what the book says. A bundled clip's footage comes back by itself. */
async function followBook(book: Book): Promise<void> {
  const { take, model } = book;
  if (take === null) {
    clearFootage();
    session.setState({ track: null });
    return;
  }
  if (session.getState().footage?.facts.hash !== take.hash) {
    clearFootage();
    const again = knownClip(take.hash);
    if (again !== undefined) await showFootage(again.source, again.facts);
    else if (take.address !== null) attempt(() => showBundled(take.address as string, take.hash));
  }
  const atHand = trackAtHand(take.hash, model);
  if (atHand === null) session.setState({ track: null });
  const track = atHand ?? (await findTrack(take, model));
  const now = currentBook();
  if (now.take?.hash === take.hash && now.model === model && track !== null) session.setState({ track });
}

async function showBundled(address: string, hash: string): Promise<void> {
  const clip = BUNDLED_CLIPS.find((c) => clipAddress(c.name) === address);
  if (clip === undefined) return;
  const source = bundledSource(clip.name);
  const facts = await openClip(source);
  if (currentBook().take?.hash !== hash) return;
  if (facts.hash !== hash) {
    throw new NudgebookError(
      'wrong-footage',
      `The clip “${clip.title}” that comes with this version is another rendering than the one in this book.`,
      'Steps, charts and sheet stay as they are; open the clip anew to work with its pictures.',
    );
  }
  await showFootage(source, facts);
}

/** What footage and track must match. */
function keyOf(book: Book): string {
  return book.take === null ? '' : `${book.take.hash}/${book.model}`;
}

/** Starts following the book; returns how to stop. */
export function startFollowing(): () => void {
  let followed: string | null = null;
  const look = (): void => {
    const book = currentBook();
    // While a clip is being opened or posed, that work itself brings what the book says; afterwards this looks again.
    if (keyOf(book) === followed || changesBench(session.getState().job)) return;
    followed = keyOf(book);
    attempt(() => followBook(book));
  };
  look();
  const stops = [bookStore.subscribe(look), session.subscribe(look)];
  return () => stops.forEach((stop) => stop());
}
