/** Three numbers that belong together: forward, up, right. */
import type { ReactElement } from 'react';
import type { Triple } from '../../../../puppet/armature.ts';
import { MeasureField } from '../../../fields/MeasureField.tsx';
import { NumberField } from '../../../fields/NumberField.tsx';

const PARTS = ['forward', 'up', 'right'] as const;

export interface TripleFieldProps {
  readonly label: string;
  /** `undefined`: not given. */
  readonly value: Triple | undefined;
  readonly byDefault: Triple;
  /** Lengths are typed with their unit; a direction has none. */
  readonly quantity: 'length' | 'direction';
  readonly onCommit: (value: Triple | undefined) => void;
}

export function TripleField({ label, value, byDefault, quantity, onCommit }: TripleFieldProps): ReactElement {
  const shown = value ?? byDefault;
  const set = (part: number, v: number | null): void => {
    // One emptied part gives the whole back to its default: two parts of a direction mean nothing.
    onCommit(v === null ? undefined : (shown.map((old, i) => (i === part ? v : old)) as unknown as Triple));
  };
  return (
    <div className="triple" role="group" aria-label={label}>
      <span className="field-label">{label}{value === undefined ? ', default' : ''}</span>
      <span className="choice-row">
        {PARTS.map((part, i) => (quantity === 'length' ? (
          <MeasureField key={part} quiet label={part} quantity="length" value={value?.[i] ?? null} byDefault={byDefault[i]!} min={-4000} max={4000} step={1} widthCh={5} onCommit={(v) => set(i, v)} />
        ) : (
          <NumberField key={part} label={part} value={value?.[i] ?? null} emptyWord={String(Math.round(byDefault[i]! * 100) / 100)} min={-1000} max={1000} step={0.1} decimals={3} widthCh={5} onCommit={(v) => set(i, v)} />
        )))}
      </span>
    </div>
  );
}
