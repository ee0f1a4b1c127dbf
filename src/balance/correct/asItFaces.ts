/** Directions over the floor as the puppet itself has them, in the words of the screen. */
import { readQuat, rotate } from '../../numeric/quaternion.ts';

const WAYS = ['forward', 'forward and to its right', 'to its right', 'back and to its right', 'back', 'back and to its left', 'to its left', 'forward and to its left'] as const;

/**
 * @param towardDeg on the set: 0 is X, 90 is Z
 * @param facingDeg which way the puppet faces, the same way
 */
export function wayAsItFaces(towardDeg: number, facingDeg: number): string {
  const turned = (((towardDeg - facingDeg) % 360) + 360) % 360;
  return WAYS[Math.round(turned / 45) % 8]!;
}

/** Which way the root bone faces at a step, degrees from X toward Z. @param rotations `[N·P·4]` of P joints, the root's first */
export function facingDegOf(rotations: Float64Array, width: number, step: number): number {
  const [x, , z] = rotate(readQuat(rotations, step * width), [1, 0, 0]);
  return (Math.atan2(z, x) * 180) / Math.PI;
}
