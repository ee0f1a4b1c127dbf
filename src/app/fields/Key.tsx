/** A key, shown where it acts. Read from the keymap, so that it cannot lie. */
import type { ReactElement } from 'react';
import { keyWords } from '../keys/keymap.ts';
import type { CommandName } from '../state/commandNames.ts';

export function Key({ of }: { readonly of: CommandName }): ReactElement {
  return <kbd aria-hidden="true">{keyWords(of)}</kbd>;
}
