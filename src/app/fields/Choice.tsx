/**
 * A few choices side by side, one of them lit. Buttons rather than radio inputs: the arrow keys stay the playhead's.
 */
import { type ReactElement, type ReactNode, useId } from 'react';

export interface ChoiceProps<T extends string | number> {
  readonly label: string;
  readonly options: readonly { readonly value: T; readonly words: ReactNode }[];
  readonly value: T | null;
  readonly disabled?: boolean;
  readonly onChoose: (value: T) => void;
  readonly children?: ReactNode;
}

export function Choice<T extends string | number>({ label, options, value, disabled, onChoose, children }: ChoiceProps<T>): ReactElement {
  const id = useId();
  return (
    <div className="field" role="group" aria-labelledby={id}>
      <span id={id} className="field-label">{label}</span>
      <span className="choice-row">
        <span className="choice">
          {options.map((option) => (
            <button
              key={option.value}
              type="button"
              disabled={disabled}
              aria-pressed={option.value === value}
              onClick={() => onChoose(option.value)}
            >
              {option.words}
            </button>
          ))}
        </span>
        {children}
      </span>
    </div>
  );
}
