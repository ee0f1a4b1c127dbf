/** One cell of the sheet: a joint's angle or move, or a point's travel or reading, in words that a hand understands. */
import type { ReactElement } from 'react';
import { certaintyAt, incrementCertaintyAt } from '../../../charts/certainty.ts';
import { figure, signedFigure } from '../../../charts/figures.ts';
import type { Datum } from '../../../plan/datums.ts';
import type { Plan } from '../../../plan/plan.ts';
import { turnsFreely } from '../../../puppet/armature.ts';
import { flagsAt } from '../puppet/moves/flags.ts';
import { depthWords, hourWords, keyWords } from '../puppet/moves/moveWords.ts';
import type { SheetColumn } from './columns.ts';

export interface CellProps<C extends SheetColumn> {
  readonly plan: Plan;
  /** Step, from 0. */
  readonly index: number;
  readonly column: C;
  /** Column in the whole table, from 1. */
  readonly at: number;
  readonly first: boolean;
}

type OfJoint = Extract<SheetColumn, { readonly joint: number }>;
type OfPoint = Extract<SheetColumn, { readonly point: number }>;

export function JointCell({ plan, index, column, at: columnIndex, first }: CellProps<OfJoint>): ReactElement {
  const at = index * plan.joints.length + column.joint;
  const certainty = column.kind === 'angle' ? certaintyAt(plan, index, column.joint) : incrementCertaintyAt(plan, index, column.joint);
  const known = column.kind !== 'unseen' && certainty !== 'missing';
  const unsure = column.kind !== 'unseen' && certainty === 'unsure';
  const flags = known && column.kind === 'turn' ? flagsAt(plan, index, column.joint) : [];
  return (
    <span role="cell" aria-colindex={columnIndex} className={`cell cell-${column.kind}${first ? ' cell-first' : ''}${unsure ? ' cell-unsure' : ''}`} style={{ width: column.widthPx }} title={flags.length === 0 ? undefined : flags.map(({ words }) => words).join(', ')}>
      {flags.length === 0 ? null : <span aria-hidden="true" className="flag-sign">{flags.map(({ sign }) => sign).join('')} </span>}
      {known ? jointWordsOf(plan, at, column) : '–'}
      {flags.length === 0 ? null : <span className="unseen">, {flags.map(({ words }) => words).join(', ')}</span>}
      {column.kind === 'angle' ? <span className="cell-error">{unsure ? errorWords(plan.errorDeg[at]) : ''}</span> : null}
      {unsure ? <span className="unseen"> unsure</span> : null}
    </span>
  );
}

/** How far two in three true angles lie at most, as ± whole degrees; nothing where that is not known either. */
function errorWords(errorDeg: number | undefined): string {
  return errorDeg !== undefined && Number.isFinite(errorDeg) ? `±${figure(errorDeg, 0)}` : '';
}

function jointWordsOf(plan: Plan, at: number, column: OfJoint): string {
  if (column.kind === 'angle') return figure(plan.orderedAngleDeg[at], 1);
  if (column.kind === 'part') return signedFigure(plan.turnDeg[at * 3 + column.axis], 1);
  const turns = plan.keyTurns[at];
  if (turns !== undefined && Number.isFinite(turns)) return Math.abs(turns) < 0.005 ? '0' : keyWords(turns);
  const joint = plan.joints[column.joint];
  return joint !== undefined && turnsFreely(joint.kind) ? figure(plan.incrementDeg[at], 1) : signedFigure(plan.incrementDeg[at], 1);
}

export function PointCell({ plan, index, column, at: columnIndex, first }: CellProps<OfPoint>): ReactElement {
  return (
    <span role="cell" aria-colindex={columnIndex} className={`cell cell-${column.kind}${first ? ' cell-first' : ''}`} style={{ width: column.widthPx }}>
      {pointWordsOf(plan, index, column)}
    </span>
  );
}

function pointWordsOf(plan: Plan, index: number, column: OfPoint): string {
  const at = index * plan.points.length + column.point;
  if (column.kind === 'travel') return figure(plan.travelMm[at], 1);
  if (column.kind === 'way') return [hourWords(plan.hour[at]), depthWords(plan.towardMm[at])].filter((words) => words !== '').join(', ');
  const reading = readingsOf(plan).get(`${index + 1} ${plan.points[column.point]?.name}`);
  return reading === undefined ? '' : figure(column.kind === 'height' ? reading.heightMm : reading.fromMarkMm, 1);
}

const known = new WeakMap<Plan, ReadonlyMap<string, Datum>>();

/** Readings by step and point; made once for a plan. */
function readingsOf(plan: Plan): ReadonlyMap<string, Datum> {
  let map = known.get(plan);
  if (map === undefined) {
    map = new Map(plan.datums.map((datum) => [`${datum.step} ${datum.point}`, datum]));
    known.set(plan, map);
  }
  return map;
}
