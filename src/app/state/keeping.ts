/**
 * Keeps the book and its tracks in the browser's storage: opens the last book when the page opens, saves after every edit,
 * saves at once when the page is hidden, and says truthfully how that went.
 */
import { type Autosave, type AutosaveState, createAutosave } from '../../book/autosave.ts';
import { askToPersist, type AsideBook, type BookStorage, openStorage } from '../../book/storage.ts';
import type { ModelSize, Track } from '../../pose/track.ts';
import { bookStore, currentBook, editBook, type SaveState, startWithBook } from './bookStore.ts';
import { showProblem } from './problems.ts';

let storage: BookStorage | null = null;
let autosave: Autosave | null = null;

function asSaveState(state: AutosaveState): SaveState {
  switch (state.kind) {
    case 'saved':
      return { kind: 'saved' };
    case 'pending':
      return { kind: 'saving' };
    case 'failed':
      return { kind: 'failed', reason: state.error.message };
    case 'another-window':
      return { kind: 'elsewhere' };
  }
}

/**
 * Opens storage and the last book. A browser without storage is said once and the program goes on.
 */
export async function startKeeping(): Promise<void> {
  try {
    storage = await openStorage();
  } catch (thrown) {
    bookStore.setState({ save: { kind: 'failed', reason: 'this browser gives no storage' } });
    showProblem(thrown);
    return;
  }
  const kept = storage;
  try {
    const book = await kept.loadBook();
    if (book !== null) startWithBook(book);
  } catch (thrown) {
    showProblem(thrown);
  }
  const saver = createAutosave({
    save: (book) => kept.saveBook(book),
    takeOver: () => kept.takeOver(),
    onState: (state) => bookStore.setState({ save: asSaveState(state) }),
  });
  autosave = saver;
  let last = currentBook();
  bookStore.subscribe((state) => {
    const former = last;
    if (state.history.present === former) return;
    last = state.history.present;
    saver.changed(last);
    // Undo doesn't outlive the page, so a book whose take is replaced is put aside where it can be found again.
    if (former.take !== null && former.take.hash !== last.take?.hash) kept.setAside(former).catch(showProblem);
  });
  const flush = (): void => void saver.flush();
  window.addEventListener('pagehide', flush);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') flush();
  });
  // A refusal is no problem of the person's; the help says that browser storage can vanish.
  void askToPersist();
}

/** After another window saved: this window's book wins, the other is put aside. */
export async function takeOverBook(): Promise<void> {
  await autosave?.takeOver();
}

/** After another window saved: its book is opened here, as an edit that can be taken back. */
export async function openOtherBook(): Promise<void> {
  if (storage === null || autosave === null) return;
  autosave.giveWay();
  const book = await storage.loadBook();
  if (book !== null) editBook(() => book, { label: 'the other window’s book' });
}

/** Books put aside, oldest first; none without storage. */
export async function asideBooks(): Promise<readonly AsideBook[]> {
  return (await storage?.listAside()) ?? [];
}

/** A kept track, or `null` where there is none or no storage. A damaged one is said and counts as none. */
export async function keptTrack(hash: string, model: ModelSize): Promise<Track | null> {
  try {
    return (await storage?.loadTrack(hash, model)) ?? null;
  } catch (thrown) {
    showProblem(thrown);
    return null;
  }
}

/** Keeps a finished track under the clip's content hash. Failing is said, and the track stays in use. */
export async function keepTrack(hash: string, track: Track): Promise<void> {
  try {
    await storage?.saveTrack(hash, track.model, track);
  } catch (thrown) {
    showProblem(thrown);
  }
}
