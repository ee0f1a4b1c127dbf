/** Where the puppet meets its floor at each step, by the pose that is set by hand. */
import type { CompleteArmature } from '../puppet/complete.ts';
import { emptyStance, forward, skeletonOf, type Skeleton, type Stance } from '../puppet/kinematics.ts';
import { areaOf, hullOf } from './hull.ts';
import { placeOnBone } from './placeOnBone.ts';
import type { PosesOnSet } from './puppetMass.ts';
import type { Contacts, Toucher } from './touching.ts';

/** A bone whose middle line is no farther over the floor than its own thickness and this, mm, may rest on it. Our choice. */
const LOW_MM = 2;

const place = new Float64Array(3);

/**
 * N steps, T touchers.
 * - `support[N]` outline of what surely touches, `[x, z, …]` mm on the set; empty where nothing does or there is no pose.
 * - `wider[N]` the same with the feet that touch a step before or after too, since a take tells landing and leaving to about a step; `null`
 *   where there are none.
 * - `middleMm[N·T·2]` X and Z of the middle of each sole that surely touches, NaN elsewhere.
 * - `low[N]` a bone that comes down to the floor and of which nobody said whether it touches; -1: none.
 */
export interface Ground {
  readonly support: readonly Float64Array[];
  readonly wider: readonly (Float64Array | null)[];
  readonly middleMm: Float64Array;
  readonly low: Int32Array;
}

/**
 * A sole that touches counts whole: rounding tilts it by a little, the floor doesn't. A bone without a sole rests on a level square
 * about the end of a bone that carries nothing (a hand), else about the lower of its two ends (a shank: the knee).
 */
export function groundOf(armature: CompleteArmature, touchers: readonly Toucher[], { touching, told, unseen }: Contacts, { rotations, rootMm }: PosesOnSet): Ground {
  const skeleton = skeletonOf(armature);
  const stance = emptyStance(skeleton);
  const width = touchers.length;
  const count = rootMm.length / 3;
  const support: Float64Array[] = [];
  const wider: (Float64Array | null)[] = [];
  const middleMm = new Float64Array(count * width * 2).fill(Number.NaN);
  const low = new Int32Array(count).fill(-1);
  const looks = lowLooks(armature, touchers);
  const points = new Float64Array(touchers.reduce((sum, { outlineMm, isFoot }) => sum + (isFoot ? outlineMm.length / 3 : 4) * 2, 0));
  const none = new Float64Array(0);
  for (let s = 0; s < count; s++) {
    if (Number.isNaN(rootMm[s * 3]!)) {
      support.push(none);
      wider.push(null);
      continue;
    }
    forward(skeleton, rotations, s, [rootMm[s * 3]!, rootMm[s * 3 + 1]!, rootMm[s * 3 + 2]!], stance);
    let n = 0;
    for (let k = 0; k < width; k++) {
      const at = s * width + k;
      if (touching[at] !== 1 || unseen[at] === 1) continue;
      const from = n;
      n = footprint(skeleton, stance, touchers[k]!, points, n);
      if (!touchers[k]!.isFoot) continue;
      let x = 0;
      let z = 0;
      for (let i = from; i < n; i++) {
        x += points[i * 2]!;
        z += points[i * 2 + 1]!;
      }
      middleMm[at * 2] = x / (n - from);
      middleMm[at * 2 + 1] = z / (n - from);
    }
    support.push(n === 0 ? none : hullOf(points, n));
    const alone = n;
    for (let k = 0; k < width; k++) {
      const at = s * width + k;
      if (touching[at] === 1 || told[at] === 1 || !(touching[at - width] === 1 || touching[at + width] === 1)) continue;
      n = footprint(skeleton, stance, touchers[k]!, points, n);
    }
    wider.push(n > alone ? hullOf(points, n) : null);
    for (const { bone, mostMm, endCounts, saidBy } of looks) {
      if (endCounts) placeOnBone(stance, bone, skeleton.endMm[bone * 3]!, skeleton.endMm[bone * 3 + 1]!, skeleton.endMm[bone * 3 + 2]!, place);
      if (stance.startMm[bone * 3 + 1]! > mostMm && (!endCounts || place[1]! > mostMm)) continue;
      if (saidBy.some((k) => told[s * width + k] === 1)) continue;
      low[s] = bone;
      break;
    }
  }
  return { support, wider, middleMm, low };
}

/** Writes the corners of what a toucher rests on; returns how many points there are then. */
function footprint(skeleton: Skeleton, stance: Stance, { bone, outlineMm, padMm, isFoot }: Toucher, points: Float64Array, n: number): number {
  if (!isFoot) {
    placeOnBone(stance, bone, skeleton.endMm[bone * 3]!, skeleton.endMm[bone * 3 + 1]!, skeleton.endMm[bone * 3 + 2]!, place);
    const startIsLower = skeleton.parent.includes(bone) && stance.startMm[bone * 3 + 1]! < place[1]!;
    const x = startIsLower ? stance.startMm[bone * 3]! : place[0]!;
    const z = startIsLower ? stance.startMm[bone * 3 + 2]! : place[2]!;
    for (let c = 0; c < 4; c++) {
      points[(n + c) * 2] = x + (c === 0 || c === 3 ? -padMm : padMm);
      points[(n + c) * 2 + 1] = z + (c < 2 ? -padMm : padMm);
    }
    return n + 4;
  }
  for (let i = 0; i < outlineMm.length; i += 3) {
    placeOnBone(stance, bone, outlineMm[i]!, outlineMm[i + 1]!, outlineMm[i + 2]!, place);
    points[n * 2] = place[0]!;
    points[n * 2 + 1] = place[2]!;
    n++;
  }
  return n;
}

interface LowLook {
  readonly bone: number;
  /** Height below which it may rest on the floor, mm. */
  readonly mostMm: number;
  /** False where a foot begins at its end. */
  readonly endCounts: boolean;
  /** Touchers whose word settles it: the bone itself and those it is joined to. */
  readonly saidBy: readonly number[];
}

/** Which bones may come to rest on the floor: all but the feet and what hangs on them. */
function lowLooks({ bones, joints }: CompleteArmature, touchers: readonly Toucher[]): readonly LowLook[] {
  const underFoot = new Set<number>();
  bones.forEach(({ sole }, p) => {
    const parent = joints[p]!.parentIndex;
    if (sole !== null || underFoot.has(parent)) underFoot.add(p);
  });
  return bones.flatMap(({ radiusMm }, bone): readonly LowLook[] => {
    if (underFoot.has(bone)) return [];
    const near = touchers.flatMap(({ bone: other }, k) => (other === bone || joints[bone]!.parentIndex === other || joints[other]!.parentIndex === bone ? [k] : []));
    return [{
      bone, mostMm: radiusMm + LOW_MM, saidBy: near.filter((k) => !touchers[k]!.isFoot),
      endCounts: !bones.some(({ sole }, p) => sole !== null && joints[p]!.parentIndex === bone),
    }];
  });
}

/** Whether an outline can carry anything: an area above a hundredth of a square millimetre. */
export function carries(outline: Float64Array): boolean {
  return outline.length >= 6 && areaOf(outline) > 0.01;
}
