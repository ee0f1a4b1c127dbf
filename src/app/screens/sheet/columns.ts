/** The columns of the sheet, worked out once for a plan. */
import { jointWords } from '../../../charts/figures.ts';
import type { PlanJoint } from '../../../plan/plan.ts';

interface AnyColumn {
  /** Index in `plan.joints`. */
  readonly joint: number;
  readonly widthPx: number;
}

export type SheetColumn =
  | (AnyColumn & { readonly kind: 'angle' | 'turn' | 'unseen' })
  /** Part of a ball's turn: 0 about the forward, 1 the up, 2 the right axis of its parent. */
  | (AnyColumn & { readonly kind: 'part'; readonly axis: 0 | 1 | 2 });

export interface SheetGroup {
  readonly joint: number;
  readonly title: string;
  /** What the angle and the turn of this kind of joint mean, for the head. */
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

export const PART_WORDS = ['fwd', 'up', 'right'] as const;

/**
 * Angle and turn of every joint; for balls the three parts of the turn as well when they are asked for. A joint that the
 * footage can never show keeps its place, with one column that says so.
 */
export function sheetGroups(joints: readonly PlanJoint[], parts: boolean): SheetGroup[] {
  let nextColumn = 2;
  return joints.map((joint, index) => {
    const columns: SheetColumn[] = !joint.observable
      ? [{ joint: index, kind: 'unseen', widthPx: UNSEEN_PX }]
      : [
          { joint: index, kind: 'angle', widthPx: ANGLE_PX },
          { joint: index, kind: 'turn', widthPx: TURN_PX },
          ...(parts && joint.kind === 'ball'
            ? ([0, 1, 2] as const).map((axis) => ({ joint: index, kind: 'part' as const, axis, widthPx: PART_PX }))
            : []),
        ];
    const firstColumn = nextColumn;
    nextColumn += columns.length;
    return {
      joint: index,
      firstColumn,
      title: jointWords(joint.name),
      meaning: !joint.observable ? 'cannot be seen' : joint.kind === 'hinge' ? '+ bends, − opens' : joint.kind === 'swivel' ? '+ and − about the bone' : 'size of the turn',
      columns,
      widthPx: columns.reduce((sum, c) => sum + c.widthPx, 0),
    };
  });
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
