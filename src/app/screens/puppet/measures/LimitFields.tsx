/** How far a joint turns: from and to, about its axis or, for balls and wires, about each axis of the bone that carries it. */
import type { ReactElement } from 'react';
import { FREE_AXES, type Joint, type Range, turnsFreely } from '../../../../puppet/armature.ts';
import type { CompleteJoint } from '../../../../puppet/complete.ts';
import { MeasureField } from '../../../fields/MeasureField.tsx';

const AXIS_WORDS = { axis: 'Turns', forward: 'About forward', up: 'About up', right: 'About right' } as const;
/** What the missing end of a half-given limit becomes, degrees: more than any joint makes. */
const FAR_DEG = 720;

export function LimitFields({ joint, complete, onCommit }: { readonly joint: Joint; readonly complete: CompleteJoint; readonly onCommit: (limits: Joint['limitsDeg']) => void }): ReactElement {
  const axes = turnsFreely(complete.kind) ? FREE_AXES : (['axis'] as const);
  return (
    <div className="limits">
      {axes.map((axis) => {
        const given = joint.limitsDeg?.[axis] ?? null;
        const set = (end: 0 | 1, v: number | null): void => {
          const other = given?.[end === 0 ? 1 : 0] ?? null;
          const low = end === 0 ? v : other;
          const high = end === 1 ? v : other;
          const range: Range | undefined = low === null && high === null ? undefined : [low ?? -FAR_DEG, high ?? FAR_DEG];
          const next = { ...joint.limitsDeg, [axis]: range };
          onCommit(Object.values(next).every((r) => r === undefined) ? undefined : next);
        };
        const shown = (end: 0 | 1): number | null => (given === null || Math.abs(given[end]) === FAR_DEG ? null : given[end]);
        return (
          <div key={axis} className="limit-row" role="group" aria-label={AXIS_WORDS[axis]}>
            <span className="field-label">{AXIS_WORDS[axis]}</span>
            <MeasureField label={`${AXIS_WORDS[axis]}, from`} hideLabel quantity="angle" value={shown(0)} byDefault={null} min={-720} max={720} step={5} widthCh={5} onCommit={(v) => set(0, v)} />
            <span>to</span>
            <MeasureField label={`${AXIS_WORDS[axis]}, to`} hideLabel quantity="angle" value={shown(1)} byDefault={null} min={-720} max={720} step={5} widthCh={5} onCommit={(v) => set(1, v)} />
          </div>
        );
      })}
    </div>
  );
}
