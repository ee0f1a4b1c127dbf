/**
 * The true body of one frame: joints placed by the truth's own skeleton, the directions of its segments, and where the
 * camera sees its joints.
 */
import { aboutZ, add, cross, dot, mix, mul, rad, scale, sub, turn, unit, type Quat, type Vec3 } from '../clips/motion/rotation.ts';
import { direction, type LimbSegments, type Segments, type Side, trunkAxes } from './segments.ts';
import type { Truth } from './truthFile.ts';

interface Placed {
  readonly position: Vec3;
  readonly rotation: Quat;
}

/** Position in metres and orientation of every joint in the world, by name. */
export type PlacedBody = (joint: string) => Placed;

function jointRotation(truth: Truth, name: string, frame: number): Quat {
  const joint = truth.joints[name];
  if (joint === undefined) throw new Error(`The truth of ${truth.clip} has no joint ${name}.`);
  if (joint.kind === 'ball') return joint.rotation[frame]!;
  // A knee bends backward, an elbow forward; a positive turn about Z swings forward.
  return aboutZ((name.endsWith('Knee') ? -1 : 1) * joint.flexionDeg[frame]!);
}

/** Forward kinematics of one frame. */
export function placeTruth(truth: Truth, frame: number): PlacedBody {
  const placed = new Map<string, Placed>();
  for (const [name, { parent: parentName, offsetM }] of Object.entries(truth.body.skeleton)) {
    const rotation = jointRotation(truth, name, frame);
    const parent = parentName === null ? undefined : placed.get(parentName);
    if (parentName !== null && parent === undefined) throw new Error(`${name} stands before its parent ${parentName}.`);
    placed.set(name, parent === undefined
      ? { position: truth.rootM[frame]!, rotation }
      : { position: add(parent.position, turn(parent.rotation, offsetM)), rotation: mul(parent.rotation, rotation) });
  }
  return (joint) => {
    const found = placed.get(joint);
    if (found === undefined) throw new Error(`The truth of ${truth.clip} has no joint ${joint}.`);
    return found;
  };
}

/** Directions of the true segments, world axes. */
export function segmentsOfTruth(body: PlacedBody): Segments {
  const at = (joint: string): Vec3 => body(joint).position;
  const trunk = direction(mix(at('leftHip'), at('rightHip'), 0.5), mix(at('leftShoulder'), at('rightShoulder'), 0.5));
  const limb = (side: Side): LimbSegments => ({
    upperArm: direction(at(`${side}Shoulder`), at(`${side}Elbow`)),
    forearm: direction(at(`${side}Elbow`), at(`${side}Wrist`)),
    thigh: direction(at(`${side}Hip`), at(`${side}Knee`)),
    shank: direction(at(`${side}Knee`), at(`${side}Ankle`)),
  });
  return {
    pelvis: trunkAxes(direction(at('leftHip'), at('rightHip')), trunk),
    chest: trunkAxes(direction(at('leftShoulder'), at('rightShoulder')), trunk),
    face: turn(body('head').rotation, [1, 0, 0]),
    left: limb('left'),
    right: limb('right'),
  };
}

/** Pixel of a world point in the clip's pinhole camera: x to the right, y down, from the top left corner. */
export function projectPx({ camera }: Truth, point: Vec3): readonly [x: number, y: number] {
  const forward = unit(sub(camera.targetM, camera.positionM));
  const level = unit(cross(forward, [0, 1, 0]));
  const roll = rad(camera.rollDeg);
  const right = add(scale(level, Math.cos(roll)), scale(cross(forward, level), Math.sin(roll)));
  const down = cross(forward, right);
  const seen = sub(point, camera.positionM);
  const enlarge = camera.focalPx / dot(seen, forward);
  const [x, y] = [dot(scale(seen, enlarge), right), dot(scale(seen, enlarge), down)];
  return [camera.centrePx[0] + x, camera.centrePx[1] + y];
}
