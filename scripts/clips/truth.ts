// The truth beside a clip: what every joint really did, in numbers. Format: reference-clips/README.md.
import { cameraPitchDeg, cameraPosition, focalPx } from './camera.ts';
import { FPS, frameCount, frameTime, SHUTTER_DEG, type Clip } from './clip.ts';
import { deg, dot, inverse, mix, sub, turn, unit, type Quat, type Vec3 } from './motion/rotation.ts';
import { poseFrom } from './motion/pose.ts';
import { JOINTS, offsetsOf, PARENT, placeJoints, SIDES, type Joint, type Side } from './motion/skeleton.ts';

const HINGES: ReadonlySet<Joint> = new Set(['leftElbow', 'rightElbow', 'leftKnee', 'rightKnee']);
/** Toes bend only to keep the drawn shoe on the floor; they are no joint of the truth. */
const TOLD = JOINTS.filter((j) => !j.endsWith('Toes'));

const SUPPORTS = ['leftKnee', 'rightKnee', 'seat'] as const;

const round = (value: number, places: number): number => Number(value.toFixed(places)) + 0;
/** 0.00005 of a quaternion's component is under 0.01 degrees. */
const quat = (q: Quat): readonly number[] => (q[0] < 0 ? q.map((v) => -v) : [...q]).map((v) => round(v, 5));
const metres = (v: Vec3): readonly number[] => v.map((n) => round(n, 4));
const degrees = (v: number): number => round(v, 2);
const angleBetween = (a: Vec3, b: Vec3): number => deg(Math.acos(Math.max(-1, Math.min(1, dot(unit(a), unit(b))))));

/** Flexion of a hinge from its rotation about Z. */
const flexion = (joint: Joint, q: Quat): number =>
  (joint.endsWith('Knee') ? -1 : 1) * 2 * deg(Math.atan2(q[3], q[0]));

/** The truth of a clip as an object ready for JSON. */
export function truthOf(clip: Clip): Record<string, unknown> {
  const { body, shot, action } = clip;
  const frames = frameCount(clip);
  const offsets = offsetsOf(body);
  const joints: Record<string, { kind: string; flexionDeg?: number[]; rotation?: (readonly number[])[] }> = {};
  for (const j of TOLD) joints[j] = HINGES.has(j) ? { kind: 'hinge', flexionDeg: [] } : { kind: 'ball', rotation: [] };
  const derived: Record<string, number[]> = {};
  const note = (name: string, value: number): void => { (derived[name] ??= []).push(degrees(value)); };
  const root: (readonly number[])[] = [];
  const onFloor: Record<Side, number[]> = { left: [], right: [] };
  const support = { leftKnee: [] as number[], rightKnee: [] as number[], seat: [] as number[] };

  for (let i = 0; i < frames; i++) {
    const channels = action.channels(body, frameTime(i));
    const pose = poseFrom(body, channels);
    const placed = placeJoints(body, pose);
    root.push(metres(pose.root));
    for (const j of TOLD) {
      joints[j]?.flexionDeg?.push(degrees(flexion(j, pose.rotations[j])));
      joints[j]?.rotation?.push(quat(pose.rotations[j]));
    }
    const at = (j: Joint): Vec3 => placed[j].position;
    const trunkDown = sub(mix(at('leftHip'), at('rightHip'), 0.5), mix(at('leftShoulder'), at('rightShoulder'), 0.5));
    if (channels.support !== undefined) {
      for (const part of SUPPORTS) support[part].push(channels.support[part] ? 1 : 0);
    }
    for (const side of SIDES) {
      onFloor[side].push(channels.feet[side].onFloor ? 1 : 0);
      note(`${side}ShoulderElevationDeg`, angleBetween(sub(at(`${side}Elbow`), at(`${side}Shoulder`)), trunkDown));
      note(`${side}ElbowFlexionDeg`, flexion(`${side}Elbow`, pose.rotations[`${side}Elbow`]));
      note(`${side}KneeFlexionDeg`, flexion(`${side}Knee`, pose.rotations[`${side}Knee`]));
      const thigh = turn(inverse(placed.pelvis.rotation), sub(at(`${side}Knee`), at(`${side}Hip`)));
      note(`${side}HipFlexionDeg`, deg(Math.atan2(thigh[0], -thigh[1])));
    }
  }
  return {
    format: 'nudgebook-reference-truth', version: 1,
    clip: clip.name, says: action.says, licence: 'Apache-2.0',
    fps: FPS, frames, timesS: Array.from({ length: frames }, (_, i) => round(frameTime(i), 6)),
    widthPx: shot.widthPx, heightPx: shot.heightPx,
    axes: 'right-handed, metres: X forward of the performer at rest, Y up, Z to the performer\'s right; quaternions [w,x,y,z], child relative to parent',
    camera: {
      fovVerticalDeg: shot.fovVerticalDeg, focalPx: round(focalPx(shot), 3), centrePx: [shot.widthPx / 2, shot.heightPx / 2],
      positionM: metres(cameraPosition(shot)), targetM: metres(shot.target),
      azimuthDeg: shot.azimuthDeg, pitchDownDeg: degrees(cameraPitchDeg(shot)), rollDeg: shot.rollDeg ?? 0,
    },
    ...(clip.blurSubFrames === undefined ? {} : { motionBlur: { shutterDeg: SHUTTER_DEG, subFrames: clip.blurSubFrames } }),
    body: {
      name: body.name,
      segmentsM: {
        thigh: round(body.hipHeight - body.kneeHeight, 4), shank: round(body.kneeHeight - body.ankleHeight, 4),
        ankleHeight: body.ankleHeight, upperArm: body.upperArm, forearm: body.forearm,
        hipWidth: round(2 * body.hipHalf, 4), shoulderWidth: round(2 * body.shoulderHalf, 4),
        hipToShoulder: round(body.shoulderHeight - body.hipHeight, 4),
      },
      skeleton: Object.fromEntries(TOLD.map((j) => [j, { parent: PARENT[j] ?? null, offsetM: metres(offsets[j]) }])),
    },
    rootM: root, leftFootOnFloor: onFloor.left, rightFootOnFloor: onFloor.right,
    ...(support.seat.length === 0 ? {} : { support }),
    joints, derived,
  };
}
