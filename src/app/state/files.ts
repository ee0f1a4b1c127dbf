/** Files in and out of the page: choosing, dropping, downloading. */
import { BOOK_FILE_ENDING, readBookFile } from '../../book/bookFile.ts';
import { POSE_VERSION } from '../../book/poseVersion.ts';
import { openTakeFile, relinkFile } from '../media/takes.ts';
import { addTrack } from '../media/tracks.ts';
import { writeFile } from '../save/writeFile.ts';
import { openArmatureText, saysArmature } from './armatureText.ts';
import { currentBook, editBook } from './bookStore.ts';
import { dismissProblem } from './problems.ts';
import { changesBench, say, session } from './session.ts';

const CLIP_TYPES = 'video/*,.mkv,.mov,.mp4,.m4v,.webm,.ts';

/** Lets a person choose one file; `null` when they think better of it. */
export function chooseFile(accept: string): Promise<File | null> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = accept;
    input.addEventListener('change', () => resolve(input.files?.[0] ?? null));
    input.addEventListener('cancel', () => resolve(null));
    input.click();
  });
}

/** Opens a chosen or dropped file by what it is: a book, an armature, or else a clip. */
export async function openAnyFile(file: File): Promise<void> {
  dismissProblem();
  if (/\.json$/i.test(file.name)) await openJsonFile(file);
  else await openTakeFile(file);
}

/** Asks for a clip or a book and opens it. */
export async function askAndOpen(): Promise<void> {
  const file = await chooseFile(`${CLIP_TYPES},${BOOK_FILE_ENDING},.json`);
  if (file !== null) await openAnyFile(file);
}

/** Asks for the footage of the book's take. */
export async function askAndRelink(): Promise<void> {
  const file = await chooseFile(CLIP_TYPES);
  if (file !== null) await relinkFile(file);
}

async function openJsonFile(file: File): Promise<void> {
  const text = await file.text();
  if (saysArmature(text)) openArmatureText(text);
  else await openBookText(text);
}

/** Opens a book as an edit: undo brings the former one back. */
async function openBookText(text: string): Promise<void> {
  const { book, track, poseVersion } = readBookFile(text);
  if (track !== null && book.take !== null && poseVersion === POSE_VERSION) await addTrack(book.take.hash, track);
  editBook(() => book, { label: `opening of “${book.title}”` });
  say(`Opened the book ${book.title}.`);
}

/** A title as a file name that every system takes. */
export function fileNameOf(title: string): string {
  const plain = title.replace(/[\p{Cc}<>:"/\\|?*]+/gu, ' ').replace(/\s+/g, ' ').trim().replace(/\.+$/, '');
  return plain === '' ? 'Untitled' : plain;
}

/** Hands a file to the person under a name. */
export function download(file: Blob, name: string): void {
  const url = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The download has begun once the click is done; a little later it no longer needs the address.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
  say(`Saved ${name}.`);
}

/** Saves the book with the track it was planned from. */
export async function saveBookFile(): Promise<void> {
  const book = currentBook();
  const { track, job } = session.getState();
  const whole = !changesBench(job) && book.take !== null && track?.model === book.model ? track : null;
  download(await writeFile({ kind: 'book', book, track: whole }), `${fileNameOf(book.title)}${BOOK_FILE_ENDING}`);
}
