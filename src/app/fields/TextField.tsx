/** A short text that is typed: taken over on Enter or when the field is left, put back on Escape. */
import { type ReactElement, useId, useRef, useState } from 'react';

export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly maxChars: number;
  readonly mayBeEmpty?: boolean;
  readonly lines?: number;
  /** @returns `false` where the text is refused; the field then shows the former one again */
  readonly onCommit: (text: string) => unknown;
}

export function TextField({ label, value, maxChars, mayBeEmpty = false, lines = 1, onCommit }: TextFieldProps): ReactElement {
  const id = useId();
  const [draft, setDraft] = useState({ from: value, text: value });
  const text = draft.from === value ? draft.text : value;
  const field = useRef<HTMLInputElement & HTMLTextAreaElement>(null);
  const commit = (): void => {
    const plain = text.trim();
    if (plain === value || (plain === '' && !mayBeEmpty) || onCommit(plain) === false) setDraft({ from: value, text: value });
  };
  const shared = {
    ref: field, id, value: text, maxLength: maxChars, spellCheck: false, autoComplete: 'off', className: 'text-field',
    onChange: (event: { readonly target: { readonly value: string } }) => setDraft({ from: value, text: event.target.value }),
    onBlur: commit,
    onKeyDown: (event: { readonly key: string; readonly shiftKey: boolean; readonly stopPropagation: () => void }) => {
      if (event.key === 'Escape') {
        setDraft({ from: value, text: value });
        requestAnimationFrame(() => field.current?.blur());
      } else if (event.key === 'Enter' && (lines === 1 || !event.shiftKey)) {
        field.current?.blur();
      } else {
        return;
      }
      event.stopPropagation();
    },
  };
  return (
    <div className="field">
      <label htmlFor={id} className="field-label">{label}</label>
      {lines === 1 ? <input type="text" {...shared} /> : <textarea rows={lines} {...shared} />}
    </div>
  );
}
