/**
 * A number that is typed: taken over on Enter or when the field is left, put back on Escape, and refused with the allowed
 * range in words. Arrow up and down change it by one step, so that what can be dragged elsewhere can also be nudged here.
 */
import { type KeyboardEvent, type ReactElement, useId, useRef, useState } from 'react';
import { type NumberRange, type NumberRead, parseNumber, writeNumber } from './numberText.ts';

export interface NumberFieldProps {
  readonly label: string;
  readonly unit?: string;
  /** `null` is shown as an empty field with `emptyWord` in it. */
  readonly value: number | null;
  readonly emptyWord?: string;
  readonly min: number;
  readonly max: number;
  /** What one arrow key changes. */
  readonly step: number;
  readonly decimals: number;
  readonly widthCh?: number;
  readonly hideLabel?: boolean;
  readonly disabled?: boolean;
  /** Reads what was typed; plain numbers unless given. */
  readonly read?: (typed: string, range: NumberRange) => NumberRead;
  /** Called with a number within min..max, or `null` for an emptied field where `emptyWord` is given. */
  readonly onCommit: (value: number | null) => void;
}

export function NumberField(props: NumberFieldProps): ReactElement {
  const { label, unit, value, emptyWord, min, max, step, decimals, widthCh = 6, hideLabel = false, disabled = false, read: readText = parseNumber, onCommit } = props;
  const range: NumberRange = { min, max, mayBeEmpty: emptyWord !== undefined };
  const id = useId();
  const shown = value === null ? '' : writeNumber(value, decimals);
  // What is being typed, and which value it set out from: once the value is another, the draft is void.
  const [draft, setDraft] = useState({ from: shown, text: shown, refused: null as string | null });
  const { text, refused } = draft.from === shown ? draft : { text: shown, refused: null };
  const setText = (typed: string, why: string | null = null): void => setDraft({ from: shown, text: typed, refused: why });
  const input = useRef<HTMLInputElement>(null);

  const commit = (typed: string): void => {
    if (typed.trim() === shown) {
      setText(shown);
      return;
    }
    const read = readText(typed, range);
    if (read.kind === 'refused') {
      setText(typed, read.why);
      return;
    }
    setText(read.value === null ? '' : writeNumber(read.value, decimals));
    onCommit(read.value);
  };

  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'Enter') {
      commit(text);
      if (readText(text, range).kind !== 'refused') input.current?.blur();
    } else if (event.key === 'Escape') {
      setText(shown);
      // Left without taking over: blur would commit the text that state still holds.
      requestAnimationFrame(() => input.current?.blur());
    } else if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault();
      const typed = readText(text, range);
      const base = typed.kind === 'read' && typed.value !== null ? typed.value : (value ?? (Number(emptyWord) || min));
      const next = base + (event.key === 'ArrowUp' ? step : -step);
      commit(writeNumber(Math.max(min, Math.min(max, Math.round(next / step) * step)), decimals));
    } else {
      return;
    }
    event.stopPropagation();
  };

  return (
    <div className={`field${refused === null ? '' : ' field-refused'}`}>
      <label htmlFor={id} className={hideLabel ? 'unseen' : 'field-label'}>{label}</label>
      <span className="field-box">
        <input
          ref={input}
          id={id}
          className="number"
          style={{ width: `${widthCh}ch` }}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          spellCheck={false}
          placeholder={emptyWord}
          value={text}
          disabled={disabled}
          aria-invalid={refused !== null}
          aria-describedby={refused === null ? undefined : `${id}-why`}
          onChange={(event) => setText(event.target.value)}
          onFocus={(event) => event.target.select()}
          onBlur={() => commit(text)}
          onKeyDown={onKeyDown}
        />
        {unit === undefined ? null : <span className="unit">{unit}</span>}
      </span>
      {refused === null ? null : <span id={`${id}-why`} className="field-why" role="alert">{refused}</span>}
    </div>
  );
}
