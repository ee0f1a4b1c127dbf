/** One of a longer list of choices. */
import { type ReactElement, useId } from 'react';

export interface SelectProps<T extends string> {
  readonly label: string;
  readonly hideLabel?: boolean;
  readonly options: readonly { readonly value: T; readonly words: string }[];
  readonly value: T;
  readonly disabled?: boolean;
  readonly onChoose: (value: T) => void;
}

export function Select<T extends string>({ label, hideLabel = false, options, value, disabled, onChoose }: SelectProps<T>): ReactElement {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id} className={hideLabel ? 'unseen' : 'field-label'}>{label}</label>
      <select id={id} className="select" value={value} disabled={disabled} onChange={(event) => onChoose(event.target.value as T)}>
        {options.map((option) => <option key={option.value} value={option.value}>{option.words}</option>)}
      </select>
    </div>
  );
}
