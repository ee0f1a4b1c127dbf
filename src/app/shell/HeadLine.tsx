/** The thin line on top: whose book this is, the screens, what undo would take back, and whether the work is safe. */
import type { ReactElement } from 'react';
import { TITLE_MAX_CHARS } from '../../book/document.ts';
import { redoLabel, undoLabel } from '../../book/history.ts';
import { Key } from '../fields/Key.tsx';
import { editBook } from '../state/bookStore.ts';
import { runCommand } from '../state/commands.ts';
import { SCREENS } from '../state/session.ts';
import { useBook, useBookState, useSession } from '../state/use.ts';
import { SaveWords } from './SaveWords.tsx';

const SCREEN_WORDS = { take: 'Take', puppet: 'Puppet', pace: 'Pace', poise: 'Poise', sheet: 'Sheet' } as const;
const SCREEN_COMMANDS = { take: 'showTake', puppet: 'showPuppet', pace: 'showPace', poise: 'showPoise', sheet: 'showSheet' } as const;

export function HeadLine(): ReactElement {
  const screen = useSession((s) => s.screen);
  const red = useSession((s) => s.red);
  return (
    <header className="head-line">
      <Title />
      <nav aria-label="Screens" className="screens">
        {SCREENS.map((name) => (
          <a key={name} href={`#/${name}`} aria-current={name === screen ? 'page' : undefined}>
            <Key of={SCREEN_COMMANDS[name]} />
            {SCREEN_WORDS[name]}
          </a>
        ))}
      </nav>
      <UndoRedo />
      <SaveWords />
      <div className="head-buttons">
        <button type="button" title="Start a new book (Shift+N); undo brings this one back" onClick={() => runCommand('newBook')}>New</button>
        <button type="button" title="Open a clip or a book (Ctrl+O)" onClick={() => runCommand('openFile')}>Open</button>
        <button type="button" title="Save the book as a file (Ctrl+S)" onClick={() => runCommand('saveBook')}>Save</button>
        <button type="button" aria-pressed={red} title="Red on black, for a dark set (R)" onClick={() => runCommand('toggleRed')}>Red</button>
        <button type="button" aria-label="Keys and help" title="Keys and help (?)" onClick={() => runCommand('toggleHelp')}>?</button>
      </div>
    </header>
  );
}

function Title(): ReactElement {
  const title = useBook((b) => b.title);
  return (
    <input
      className="title"
      aria-label="Title of the book"
      value={title}
      maxLength={TITLE_MAX_CHARS}
      spellCheck={false}
      onChange={(event) => {
        const typed = event.target.value;
        editBook((book) => ({ ...book, title: typed }), { key: 'title' });
      }}
      onKeyDown={(event) => {
        if (event.key === 'Enter' || event.key === 'Escape') event.currentTarget.blur();
      }}
    />
  );
}

function UndoRedo(): ReactElement {
  const undo = useBookState((s) => undoLabel(s.history));
  const redo = useBookState((s) => redoLabel(s.history));
  return (
    <div className="undo-redo">
      <button type="button" disabled={undo === null} title={undo === null ? 'Nothing to undo' : `Undo ${undo} (Ctrl+Z)`} onClick={() => runCommand('undo')}>
        <span>Undo</span>
        <span className="what">{undo ?? ''}</span>
      </button>
      <button type="button" disabled={redo === null} title={redo === null ? 'Nothing to redo' : `Redo ${redo} (Ctrl+Y)`} onClick={() => runCommand('redo')}>
        <span>Redo</span>
        <span className="what">{redo ?? ''}</span>
      </button>
    </div>
  );
}
