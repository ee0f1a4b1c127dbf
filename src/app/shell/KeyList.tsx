/** The list of keys and the few words of caution. Written from the keymap itself. */
import { type ReactElement, useEffect, useRef } from 'react';
import { comboWords, KEYMAP } from '../keys/keymap.ts';
import { COMMAND_GROUPS, type CommandName } from '../state/commandNames.ts';
import { session } from '../state/session.ts';
import { useSession } from '../state/use.ts';
import { Caution } from './Caution.tsx';
import { EarlierBooks } from './EarlierBooks.tsx';

const close = (): void => session.setState({ helpOpen: false });

export function KeyList(): ReactElement {
  const open = useSession((s) => s.helpOpen);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const element = dialog.current;
    if (element === null) return;
    if (open && !element.open) element.showModal();
    if (!open && element.open) element.close();
  }, [open]);
  return (
    <dialog ref={dialog} className="key-list" aria-labelledby="key-list-title" onClose={close}>
      <header>
        <h2 id="key-list-title">Keys</h2>
        <button type="button" className="small" onClick={close}>Close <kbd aria-hidden="true">Esc</kbd></button>
      </header>
      <div className="key-groups">
        {Object.entries(COMMAND_GROUPS).map(([group, commands]) => (
          <section key={group}>
            <h3>{group}</h3>
            <dl>
              {Object.entries(commands).map(([name, said]) => (
                <div key={name}>
                  <dt>{[...new Set(KEYMAP[name as CommandName].map(comboWords))].slice(0, 2).map((words) => <kbd key={words}>{words}</kbd>)}</dt>
                  <dd>{said}</dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
        <section>
          <h3>Good to know</h3>
          <p>Ctrl with the wheel changes the height of the rows. A click on a row moves the playhead; a click in the column “shot” marks the step.</p>
          <p>In the column “gap”, G and a number: so many joints are not known at that step; B: so many were bridged over a short gap.</p>
          <p>Footage, track and book stay on this computer. The browser may clear its storage one day: the saved file is the safe copy.</p>
          <p><a href="licences.txt" target="_blank" rel="noreferrer">Licences</a> of Nudgebook and of what it is made with.</p>
          <Caution />
        </section>
        {open ? <EarlierBooks /> : null}
      </div>
    </dialog>
  );
}
