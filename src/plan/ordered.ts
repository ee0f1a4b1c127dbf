/** What follows from the puppet's exact pose by rounding alone. */
import { chainPoints, type ChainPoint } from '../puppet/chainPoints.ts';
import type { CompleteArmature } from '../puppet/complete.ts';
import { limbEnds } from '../puppet/limbEnds.ts';
import type { MovedPuppet } from '../puppet/movePuppet.ts';
import { orderMoves, type Orders } from '../puppet/orderMoves.ts';
import { orderRoot, type OrderedRoot } from '../puppet/orderRoot.ts';
import { placePoints } from './travel.ts';

/** Everything that follows from the rounded turns alone. */
export interface Ordered {
  readonly orders: Orders;
  readonly root: OrderedRoot;
  readonly points: readonly ChainPoint[];
  readonly pointMm: Float64Array;
  /** `[N·L·3]` where the limbs end, NaN for those that the puppet does not have. */
  readonly endMm: Float64Array;
}

/** @param kept as for {@link orderMoves} */
export function orderAll(moved: MovedPuppet, armature: CompleteArmature, kept: Uint8Array | null): Ordered {
  const orders = orderMoves(armature, moved.rotations, kept);
  const root = orderRoot(armature, moved.feet, moved.placed, moved.rootMm, orders.rotations);
  const points = chainPoints(armature);
  const ends = limbEnds(armature, moved.joints);
  const endMm = new Float64Array((root.root.length / 3) * ends.length * 3).fill(Number.NaN);
  const own = ends.filter((end) => end !== null);
  const placed = placePoints(armature, [...points, ...own], orders.rotations, root.root);
  const pointMm = new Float64Array((root.root.length / 3) * points.length * 3);
  const [width, inner] = [(points.length + own.length) * 3, points.length * 3];
  for (let s = 0; s < root.root.length / 3; s++) {
    pointMm.set(placed.subarray(s * width, s * width + inner), s * inner);
    let k = s * width + inner;
    ends.forEach((end, e) => {
      if (end === null) return;
      endMm.set(placed.subarray(k, k + 3), (s * ends.length + e) * 3);
      k += 3;
    });
  }
  return { orders, root, points, pointMm, endMm };
}
