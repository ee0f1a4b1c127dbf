/**
 * A length, weight or angle that is typed with or without its unit. What was not measured stands there as a default, dimmed
 * and called so; emptying the field goes back to it.
 */
import type { ReactElement } from 'react';
import { useSession } from '../state/use.ts';
import { NumberField } from './NumberField.tsx';
import { parseMeasure, type Quantity, shownUnit } from './measureText.ts';
import { writeNumber } from './numberText.ts';

export interface MeasureFieldProps {
  readonly label: string;
  readonly quantity: Quantity;
  /** Base units: mm, g, degrees. `null`: not given. */
  readonly value: number | null;
  /** What holds where nothing is given; without it the field must not be empty. */
  readonly byDefault?: number | null;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  /** Something else says already that it is a default. */
  readonly quiet?: boolean;
  readonly hideLabel?: boolean;
  readonly disabled?: boolean;
  readonly widthCh?: number;
  readonly onCommit: (value: number | null) => void;
}

export function MeasureField({ label, quantity, value, byDefault, min, max, step, quiet = false, hideLabel, disabled, widthCh = 7, onCommit }: MeasureFieldProps): ReactElement {
  const system = useSession((s) => s.units);
  const { unit, size, decimals } = shownUnit(quantity, system);
  const mayBeEmpty = byDefault !== undefined;
  return (
    <NumberField
      label={label}
      unit={value === null && mayBeEmpty && byDefault !== null && !quiet ? `${unit} default` : unit}
      value={value === null ? null : value / size}
      emptyWord={mayBeEmpty ? (byDefault === null ? '–' : writeNumber(byDefault / size, decimals)) : undefined}
      min={min / size}
      max={max / size}
      // A step of the inch scale that is near the metric one: 1 mm becomes 0.05 in.
      step={system === 'in' && quantity === 'length' ? step * 0.05 : step}
      decimals={decimals}
      widthCh={widthCh}
      hideLabel={hideLabel}
      disabled={disabled}
      read={(typed, range) => parseMeasure(typed, quantity, system, range)}
      onCommit={(shown) => onCommit(shown === null ? null : shown * size)}
    />
  );
}
