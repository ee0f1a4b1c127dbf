/** The columns of the sheet, worked out once for a plan. */
import { jointWords } from '../../../charts/figures.ts';
import type { PlanJoint } from '../../../plan/plan.ts';
import { turnsFreely } from '../../../puppet/armature.ts';

interface JointColumn {
  /** Index in `plan.joints`. */
  readonly joint: number;
  readonly widthPx: number;
}

interface PointColumn {
  /** Index in `plan.points`. */
  readonly point: number;
  readonly widthPx: number;
}

export type SheetColumn =
  | (JointColumn & { readonly kind: 'angle' | 'turn' | 'unseen' })
  /** Part of a ball's turn: 0 about the forward, 1 the up, 2 the right axis of its parent. */
  | (JointColumn & { readonly kind: 'part'; readonly axis: 0 | 1 | 2 })
  /** How far a point travels and which way; where it is read on the set, in rows that have a reading. */
  | (PointColumn & { readonly kind: 'travel' | 'way' | 'height' | 'mark' });

export interface SheetGroup {
  /** Unlike any other group's. */
  readonly key: string;
  readonly title: string;
  /** What the figures mean for this kind of joint, for the head. */
  readonly meaning: string;
  readonly columns: readonly SheetColumn[];
  readonly widthPx: number;
  /** Column of its first cell in the whole table, counted from 1; the step is column 1. */
  readonly firstColumn: number;
}

/** Lowest row that carries figures. */
export const FIGURE_ROW_PX = 16;

/** Room for the figure and, where it is unsure, for ± and its error. */
const ANGLE_PX = 94;
const TURN_PX = 62;
const PART_PX = 56;
const UNSEEN_PX = 118;
const KEY_PX = 84;
const TRAVEL_PX = 62;
const WAY_PX = 150;
const READING_PX = 66;

export const PART_WORDS = ['fwd', 'up', 'right'] as const;

function meaningOf({ kind, observable }: PlanJoint): string {
  if (!observable) return 'cannot be seen';
  switch (kind) {
    case 'hinge': return '+ bends, − opens';
    case 'swivel': return '+ and − about the bone';
    case 'screw': return 'turns of the key';
    default: return 'size of the turn';
  }
}

/**
 * Angle and turn of every joint; for balls the three parts of the turn as well when they are asked for. A joint that the
 * footage can never show keeps its place, with one column that says so. Then the points whose travel can be measured, with
 * their readings where the plan has some.
 */
export function sheetGroups(joints: readonly PlanJoint[], parts: boolean, points: readonly string[] = [], readings = false): SheetGroup[] {
  let nextColumn = 2;
  const ofJoints = joints.map((joint, index): SheetGroup => {
    const columns: SheetColumn[] = !joint.observable
      ? [{ joint: index, kind: 'unseen', widthPx: UNSEEN_PX }]
      : [
          { joint: index, kind: 'angle', widthPx: ANGLE_PX },
          { joint: index, kind: 'turn', widthPx: joint.kind === 'screw' ? KEY_PX : TURN_PX },
          ...(parts && turnsFreely(joint.kind)
            ? ([0, 1, 2] as const).map((axis) => ({ joint: index, kind: 'part' as const, axis, widthPx: PART_PX }))
            : []),
        ];
    const firstColumn = nextColumn;
    nextColumn += columns.length;
    return {
      key: `joint ${joint.name}`,
      firstColumn,
      title: jointWords(joint.name),
      meaning: meaningOf(joint),
      columns,
      widthPx: columns.reduce((sum, c) => sum + c.widthPx, 0),
    };
  });
  const ofPoints = points.map((name, point): SheetGroup => {
    const columns: SheetColumn[] = [
      { point, kind: 'travel', widthPx: TRAVEL_PX },
      { point, kind: 'way', widthPx: WAY_PX },
      ...(readings ? (['height', 'mark'] as const).map((kind) => ({ point, kind, widthPx: READING_PX })) : []),
    ];
    const firstColumn = nextColumn;
    nextColumn += columns.length;
    return { key: `point ${name}`, firstColumn, title: jointWords(name), meaning: 'travel, as the camera sees it', columns, widthPx: columns.reduce((sum, c) => sum + c.widthPx, 0) };
  });
  return [...ofJoints, ...ofPoints];
}

/**
 * Which joints' columns lie between two places of the sheet, px from the left edge of the first.
 *
 * @returns indices of the first and the last of them, and where the first begins
 */
export function groupsInView(groups: readonly SheetGroup[], fromPx: number, toPx: number): { readonly first: number; readonly last: number; readonly fromPx: number } {
  let first = -1;
  let last = 0;
  let startPx = 0;
  let x = 0;
  for (let i = 0; i < groups.length; i += 1) {
    const endPx = x + (groups[i]?.widthPx ?? 0);
    if (first < 0 && endPx > fromPx) {
      first = i;
      startPx = x;
    }
    if (x < toPx) last = i;
    x = endPx;
  }
  return { first: Math.max(0, first), last, fromPx: startPx };
}
