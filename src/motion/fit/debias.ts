/**
 * Takes the model's habits off its measurements: landmarks are moved to where the joint centres are expected, depth loses
 * the forward lean that the model gives every body. Both depend on how the body stands to the camera, which is read from the
 * figure as far as it has been fitted; so this is done anew for every round.
 */
import type { Figure } from './figure.ts';
import { HABIT_OF_VECTOR, type Habits } from './habits.ts';
import { BONE_COUNT, DEPTH_VECTORS, HIP_AT, POINT_COUNT, SHOULDER_AT, SPINE_AT } from './layout.ts';
import type { Observations } from './problem.ts';
import { NEAREST_M } from './residuals/image.ts';

type Triple = readonly [number, number, number];
const cross = (a: Triple, b: Triple): Triple => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const unit = (v: Triple): Triple => {
  const by = 1 / (Math.hypot(...v) || 1e-9);
  return [v[0] * by, v[1] * by, v[2] * by];
};

/** Forward, up and to the performer's left. */
type Axes = readonly [Triple, Triple, Triple];

/** Axes of a part of the trunk from its line to the left and the spine. */
function trunkAxes(left: Triple, spine: Triple): Axes {
  const side = unit(left);
  const lift = dot(spine, side);
  const up = unit([spine[0] - lift * side[0], spine[1] - lift * side[1], spine[2] - lift * side[2]]);
  return [cross(side, up), up, side];
}

/** 1 + cos below which the smallest turn from hanging to where the bone is, is undecided: sideways offsets fade (chosen, as for the crease of the elbow). */
const TURN_SURE = 0.3;

/** Axes of a bone: the trunk's, carried along by the smallest turn from hanging to the bone. */
function boneAxes([forward, up, side]: Axes, d: Triple): Axes {
  const down: Triple = [-up[0], -up[1], -up[2]];
  const whole = 1 + dot(down, d);
  const sure = Math.min(1, whole / TURN_SURE);
  const carry = (x: Triple): Triple => {
    const a = dot(d, x) / Math.max(whole, 1e-6);
    return [0, 1, 2].map((k) => sure * (x[k]! - a * (down[k]! + d[k]!))) as unknown as Triple;
  };
  return [carry(forward), [-d[0], -d[1], -d[2]], carry(side)];
}

/** For each joint of POINT: which row of JointOffsets, and the bone that carries it (or the trunk: shoulders and hips). */
const CARRIER_BONE = [-1, -1, 0, 2, 1, 3, -1, -1, 4, 6, 5, 7];

/** Of the vectors of depth, the bones of the right side. */
const RIGHT_VECTOR = [0, 0, 1, 1, 0, 0, 1, 1, 0, 0, 0];

/**
 * @param camera measurements as they came; left alone
 * @param figure as many frames, with settled points
 * @returns the same measurements without the habits
 */
export function withoutHabits(camera: Observations, figure: Figure, habits: Habits): Observations {
  const image = camera.image.slice();
  const depth = camera.depth.slice();
  const depthSigmaM = new Float64Array(depth.length);
  const { free, directions, seen, frames } = figure;
  const { rotation: r, translation: c, focalPx } = camera;
  const read = (from: Float64Array, i: number): Triple => [from[i]!, from[i + 1]!, from[i + 2]!];
  const viewed = (v: Triple, row: number): number => r[row * 3]! * v[0] + r[row * 3 + 1]! * v[1] + r[row * 3 + 2]! * v[2];
  for (let t = 0; t < frames; t++) {
    const spine = read(free, t * 12 + SPINE_AT);
    const pelvis = trunkAxes(read(free, t * 12 + HIP_AT), spine);
    const chest = trunkAxes(read(free, t * 12 + SHOULDER_AT), spine);
    for (let p = 0; p < POINT_COUNT; p++) {
      const i = t * POINT_COUNT + p;
      if (camera.weight[i]! === 0) continue;
      const trunk = p < 6 ? chest : pelvis;
      const bone = CARRIER_BONE[p]!;
      const axes = bone < 0 ? trunk : boneAxes(trunk, read(directions, (t * BONE_COUNT + bone) * 3));
      const [forward, up, outward] = habits.offsets[p >> 1]!;
      const aside = p % 2 === 0 ? outward : -outward;
      const o = [0, 1, 2].map((k) => forward * axes[0][k]! + up * axes[1][k]! + aside * axes[2][k]!) as unknown as Triple;
      const at = read(seen, i * 3);
      const z = Math.max(NEAREST_M, viewed(at, 2) + c[2]!);
      const deeper = viewed(o, 2);
      for (let axis = 0; axis < 2; axis++) {
        const across = viewed(at, axis) + c[axis]!;
        image[i * 2 + axis] = image[i * 2 + axis]! - focalPx * ((across + viewed(o, axis)) / (z + deeper) - across / z);
      }
    }
    for (let v = 0; v < DEPTH_VECTORS; v++) {
      const trunk = v < 4 ? chest : pelvis;
      const i = t * DEPTH_VECTORS + v;
      const { forwardM, twistM, sigmaM } = habits.depth[HABIT_OF_VECTOR[v]!]!;
      depthSigmaM[i] = sigmaM;
      depth[i] = depth[i]! - forwardM * viewed(trunk[0], 2) - (RIGHT_VECTOR[v] === 1 ? -twistM : twistM);
    }
  }
  return { ...camera, image, depth, depthSigmaM };
}
