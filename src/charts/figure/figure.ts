/**
 * A puppet as pictures see it: stiff parts that hang on joints. What it is made of is told once ({@link FigureShape}); each
 * moment is a list of places and turns ({@link FigurePose}). Millimetres and the axes of the stage throughout (X toward the
 * camera, Y up, Z to the left of the picture).
 */
import { rotate, readQuat } from '../../numeric/quaternion.ts';
import { add, readVec3, type Vec3 } from '../../numeric/vector3.ts';

export const FIGURE_JOINT_KINDS = ['ball', 'hinge', 'swivel', 'wire', 'screw'] as const;
/** What the joint at the head of a part is; each kind has a shape of its own in every picture. */
export type FigureJointKind = (typeof FIGURE_JOINT_KINDS)[number];

export interface FigurePart {
  /** The bone's name in the armature. */
  readonly name: string;
  /** Which half of the body it belongs to, from the puppet's own point of view. */
  readonly side: 'left' | 'right' | 'middle';
  /** Ends of the bone in the part's own axes. */
  readonly fromMm: Vec3;
  readonly toMm: Vec3;
  readonly radiusMm: number;
  /** Joint it hangs on; it sits at the origin of the part's axes. `null` where the part is fixed to the one that carries it. */
  readonly joint: { readonly name: string; readonly kind: FigureJointKind; /** Unit vector in the part's axes. */ readonly axis: Vec3; /** Of its drawing. */ readonly radiusMm: number } | null;
  /** Outline of what stands on the floor, in the part's own axes; empty where nothing does. */
  readonly soleMm: readonly Vec3[];
}

export interface FigureShape {
  readonly name: string;
  /** How tall it is at rest: what outlines are in proportion to. */
  readonly heightMm: number;
  readonly parts: readonly FigurePart[];
}

/** P parts, in the order of the shape: `originMm[P·3]` on the stage and `rotations[P·4]` w, x, y, z, from the part's axes into the stage's. */
export interface FigurePose {
  readonly originMm: ArrayLike<number>;
  readonly rotations: ArrayLike<number>;
}

/** Where a point of part `part` (in its own axes, mm) is on the stage; NaN where the pose is not known. */
export function onStage(pose: FigurePose, part: number, pointMm: Vec3): Vec3 {
  return add(readVec3(pose.originMm, part), rotate(readQuat(pose.rotations, part), pointMm));
}

/** Whether the pose of a part is known. */
export function isKnown(pose: FigurePose, part: number): boolean {
  return Number.isFinite(pose.originMm[part * 3]) && Number.isFinite(pose.rotations[part * 4]);
}

export interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

/** The box on the stage that holds the figure in every one of the poses; a box of nothing is 100 mm about the origin. */
export function boxOf(shape: FigureShape, poses: Iterable<FigurePose>): Box {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (const pose of poses) {
    shape.parts.forEach((part, p) => {
      if (!isKnown(pose, p)) return;
      for (const end of [part.fromMm, part.toMm]) {
        const at = onStage(pose, p, end);
        for (const c of [0, 1, 2] as const) {
          min[c] = Math.min(min[c]!, at[c] - part.radiusMm);
          max[c] = Math.max(max[c]!, at[c] + part.radiusMm);
        }
      }
    });
  }
  if (!Number.isFinite(min[0])) return { min: [-50, 0, -50], max: [50, 100, 50] };
  return { min: [min[0]!, min[1]!, min[2]!], max: [max[0]!, max[1]!, max[2]!] };
}

/**
 * How far each part's farther end is from where it was, mm `[P]`; NaN where one of the poses is not known.
 */
export function travelMm(shape: FigureShape, from: FigurePose, to: FigurePose): Float64Array {
  return Float64Array.from(shape.parts, (part, p) => {
    let most = 0;
    for (const end of [part.fromMm, part.toMm]) {
      const a = onStage(from, p, end);
      const b = onStage(to, p, end);
      const d = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
      if (Number.isNaN(d)) return Number.NaN;
      most = Math.max(most, d);
    }
    return most;
  });
}
