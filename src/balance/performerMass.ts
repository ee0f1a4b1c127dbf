/**
 * The performer's centre of mass at every frame, from the fitted body.
 *
 * Landmarks stand for the anatomical ends: shoulder, elbow, wrist, hip, knee, ankle for the joint centres; the middle of the
 * ears for the ear canal, from which vertex and cervicale lie off along the trunk by the table's own head (de Leva's reference
 * men: 242.9 mm from vertex to cervicale over a trunk of 515.5 mm; that the ear lies half-way is our choice); index knuckle
 * landmark for the second knuckle; the fingertip as far beyond it as the hand is long in the table; heel and foot index for
 * heel and toe tip, and the middle between ankle and toe tip for the metatarsal head.
 */
import type { FittedBody } from '../motion/fit/fittedBody.ts';
import { LANDMARK, LANDMARK_COUNT } from '../pose/landmarks.ts';
import { bodyMassCentre, type BodyPoint, type Point3 } from './massTables.ts';
import type { MassTable } from './poiseSettings.ts';

/** T frames: `timesS[T]` container seconds; `massM[T·3]` stage axes, metres, Y above the floor; NaN where nobody was found. */
export interface MassPath {
  readonly timesS: Float64Array;
  readonly massM: Float64Array;
}

const HALF_HEAD_PER_TRUNK = 242.9 / 515.5 / 2;
/** Wrist to fingertip over wrist to second knuckle: 0.18 to 0.09 m in the worked examples of the reference values. */
const HAND_PER_KNUCKLE = 2;

/**
 * @param mirror left and right are swapped, as in a mirror
 */
export function performerMass(body: FittedBody, table: MassTable, mirror: boolean): MassPath {
  const frames = body.timesS.length;
  const massM = new Float64Array(frames * 3).fill(Number.NaN);
  const { pointsM, rootM } = body;
  for (let t = 0; t < frames; t++) {
    if (body.known[t] === 0) continue;
    const at = (name: keyof typeof LANDMARK): Point3 => {
      const i = (t * LANDMARK_COUNT + LANDMARK[name]) * 3;
      return [pointsM[i]!, pointsM[i + 1]!, pointsM[i + 2]!];
    };
    const midShoulder = between(at('leftShoulder'), at('rightShoulder'), 0.5);
    const midHip = between(at('leftHip'), at('rightHip'), 0.5);
    const ear = between(at('leftEar'), at('rightEar'), 0.5);
    const headward = (by: number): Point3 => [0, 1, 2].map((c) => ear[c]! + by * HALF_HEAD_PER_TRUNK * (midShoulder[c]! - midHip[c]!)) as unknown as Point3;
    const pointOf = (point: BodyPoint, side: 'left' | 'right'): Point3 => {
      switch (point) {
        case 'vertex': return headward(1);
        case 'cervicale': return headward(-1);
        case 'earCanal': return ear;
        case 'midShoulder': return midShoulder;
        case 'midHip': return midHip;
        case 'knuckle': return at(`${side}Index`);
        case 'fingertip': return between(at(`${side}Wrist`), at(`${side}Index`), HAND_PER_KNUCKLE);
        case 'toeTip': return at(`${side}FootIndex`);
        case 'metatarsal': return between(at(`${side}Ankle`), at(`${side}FootIndex`), 0.5);
        case 'heel': return at(`${side}Heel`);
        case 'shoulder': return at(`${side}Shoulder`);
        case 'elbow': return at(`${side}Elbow`);
        case 'wrist': return at(`${side}Wrist`);
        case 'hip': return at(`${side}Hip`);
        case 'knee': return at(`${side}Knee`);
        case 'ankle': return at(`${side}Ankle`);
      }
    };
    const centre = bodyMassCentre(table, pointOf);
    for (let c = 0; c < 3; c++) massM[t * 3 + c] = (centre[c]! + rootM[t * 3 + c]!) * (c === 2 && mirror ? -1 : 1);
  }
  return { timesS: body.timesS, massM };
}

/** The path at other moments, on a line between frames; NaN beside frames in which nobody was found. `[N·3]` */
export function massAt({ timesS, massM }: MassPath, atS: Float64Array): Float64Array {
  const out = new Float64Array(atS.length * 3).fill(Number.NaN);
  const last = timesS.length - 1;
  let k = 0;
  for (let s = 0; s < atS.length; s++) {
    const at = Math.min(timesS[last]!, Math.max(timesS[0]!, atS[s]!));
    while (k > 0 && timesS[k]! > at) k--;
    while (k < last - 1 && timesS[k + 1]! <= at) k++;
    const next = Math.min(last, k + 1);
    const u = next === k ? 0 : (at - timesS[k]!) / (timesS[next]! - timesS[k]!);
    for (let c = 0; c < 3; c++) out[s * 3 + c] = u === 0 ? massM[k * 3 + c]! : massM[k * 3 + c]! * (1 - u) + massM[next * 3 + c]! * u;
  }
  return out;
}

function between(a: Point3, b: Point3, u: number): Point3 {
  return [a[0] + u * (b[0] - a[0]), a[1] + u * (b[1] - a[1]), a[2] + u * (b[2] - a[2])];
}
