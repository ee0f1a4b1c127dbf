/** What touches the set at each step, and the outline it stands on. */
import type { CompleteArmature } from '../puppet/complete.ts';
import type { Foot } from '../puppet/feet.ts';
import { emptyStance, forward, pointOn, skeletonOf } from '../puppet/kinematics.ts';
import { placeOn } from '../puppet/limb.ts';
import { areaOf, hullOf } from './hull.ts';
import type { PoiseSettings } from './poiseSettings.ts';
import type { PosesOnSet } from './puppetMass.ts';

/** Something that may touch: a sole, or the end of a bone that a person said touches. */
export interface Toucher {
  readonly name: string;
  readonly bone: number;
  /** Outline from the bone's start, in its axes, `[x, y, z, …]` mm. */
  readonly outlineMm: Float64Array;
  /** Smallest width of the outline at rest, mm; what margins are told as shares of. */
  readonly widthMm: number;
  readonly isFoot: boolean;
}

/** Half the side of what a hand or another bone rests on where its thickness is not known, mm. Our choice. */
const LEAST_PAD_MM = 2;

/** Soles in the order of `feet`, then the other bones of `touches`. Bones that the puppet doesn't have are left out. */
export function touchersOf(armature: CompleteArmature, feet: readonly Foot[], touches: PoiseSettings['touches']): readonly Toucher[] {
  const { bones } = armature;
  const soles = feet.map(({ bone, name }): Toucher => {
    const { outlineMm, dropMm } = bones[bone]!.sole!;
    const flat = outlineMm.flat();
    return { name, bone, outlineMm: Float64Array.from(outlineMm.flatMap(([x, z]) => [x, -dropMm, z])), widthMm: narrowest(flat), isFoot: true };
  });
  const named = [...new Set(touches.map(({ bone }) => bone))].filter((name) => !feet.some((foot) => foot.name === name));
  const others = named.flatMap((name): readonly Toucher[] => {
    const bone = bones.findIndex((one) => one.name === name);
    if (bone < 0) return [];
    const half = Math.max(LEAST_PAD_MM, bones[bone]!.radiusMm);
    const [x, y, z] = placeOn(armature, bone, 1);
    return [{
      name, bone, widthMm: 2 * half, isFoot: false,
      outlineMm: Float64Array.from([[-1, -1], [1, -1], [1, 1], [-1, 1]].flatMap(([a, b]) => [x + a! * half, y, z + b! * half])),
    }];
  });
  return [...soles, ...others];
}

/** Smallest width of a convex outline: over all its edges, the farthest corner from the edge's line. */
function narrowest(points: readonly number[]): number {
  const outline = hullOf(points);
  const n = outline.length / 2;
  if (n < 3) return 0;
  let least = Infinity;
  for (let k = 0; k < n; k++) {
    const next = (k + 1) % n;
    const [ax, az] = [outline[k * 2]!, outline[k * 2 + 1]!];
    const [dx, dz] = [outline[next * 2]! - ax, outline[next * 2 + 1]! - az];
    let most = 0;
    for (let i = 0; i < n; i++) most = Math.max(most, Math.abs(dx * (outline[i * 2 + 1]! - az) - dz * (outline[i * 2]! - ax)) / Math.hypot(dx, dz));
    least = Math.min(least, most);
  }
  return least;
}

/**
 * `[N·T]` 1 where it touches: feet as the plan has them standing, others not, unless a person said otherwise over a span;
 * of spans that overlap the later in the list counts.
 *
 * @param stands `[N·F]`. @param timesS `[N]` container seconds
 */
export function touchingAt(touchers: readonly Toucher[], stands: Uint8Array, feet: number, timesS: Float64Array, touches: PoiseSettings['touches']): Uint8Array {
  const count = timesS.length;
  const out = new Uint8Array(count * touchers.length);
  touchers.forEach(({ name, isFoot }, k) => {
    const said = touches.filter(({ bone }) => bone === name);
    for (let s = 0; s < count; s++) {
      let touching = isFoot && stands[s * feet + k] === 1;
      for (const { fromS, toS, touches: does } of said) if (timesS[s]! >= fromS && timesS[s]! <= toS) touching = does;
      out[s * touchers.length + k] = touching ? 1 : 0;
    }
  });
  return out;
}

/**
 * The outline of the base of support at each step, `[x, z, …]` mm on the set; empty where nothing touches or there is no pose.
 * A sole that touches counts whole: rounding tilts it by a little, the floor doesn't.
 */
export function supportsOf(armature: CompleteArmature, touchers: readonly Toucher[], touching: Uint8Array, { rotations, rootMm }: PosesOnSet): readonly Float64Array[] {
  const skeleton = skeletonOf(armature);
  const stance = emptyStance(skeleton);
  const width = touchers.length;
  const none = new Float64Array(0);
  return Array.from({ length: rootMm.length / 3 }, (_, s) => {
    if (Number.isNaN(rootMm[s * 3]!)) return none;
    let posed = false;
    const points: number[] = [];
    for (let k = 0; k < width; k++) {
      if (touching[s * width + k] !== 1) continue;
      if (!posed) forward(skeleton, rotations, s, [rootMm[s * 3]!, rootMm[s * 3 + 1]!, rootMm[s * 3 + 2]!], stance);
      posed = true;
      const { bone, outlineMm } = touchers[k]!;
      for (let i = 0; i < outlineMm.length; i += 3) {
        const [x, , z] = pointOn(stance, bone, [outlineMm[i]!, outlineMm[i + 1]!, outlineMm[i + 2]!]);
        points.push(x, z);
      }
    }
    return points.length === 0 ? none : hullOf(points);
  });
}

/** Whether an outline can carry anything: an area above a hundredth of a square millimetre. */
export function carries(outline: Float64Array): boolean {
  return outline.length >= 6 && areaOf(outline) > 0.01;
}
