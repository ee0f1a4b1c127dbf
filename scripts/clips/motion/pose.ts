// From a few readable channels (how far the arm is raised, where the foot stands) to joint rotations.
// Legs are solved from the foot up, so a planted foot cannot slide; arms and trunk are set directly.
import type { Body } from './body.ts';
import {
  aboutX, aboutY, aboutZ, add, chain, cross, deg, dot, fromAxes, inverse, length, mul, rad, scale, sub, turn, unit,
  type Quat, type Vec3,
} from './rotation.ts';
import { restRotations, signOf, SIDES, type Pose, type Side } from './skeleton.ts';

/** An arm, degrees. Elevation is from hanging; plane 0 is sideways, 90 forward; twist + turns the elbow crease inward. */
export interface ArmChannels {
  readonly elevation: number;
  readonly plane: number;
  readonly twist: number;
  readonly elbow: number;
  /** Hand: + bends towards the palm; + towards the thumb; + turns the palm back (as in a relaxed hang). */
  readonly wristFlex: number;
  readonly wristThumb: number;
  readonly wristTwist: number;
}

/** A foot: ankle joint in the world (m), pitch + toes up, yaw + toes outward, knee + outward of the foot's own direction, toes + up against the foot; degrees. */
export interface FootChannels {
  readonly ankle: Vec3;
  readonly pitch: number;
  readonly yaw: number;
  readonly kneeOut: number;
  readonly toes: number;
  readonly onFloor: boolean;
}

/** Everything that decides one frame. Trunk angles in degrees: pitch + forward, lean + to the right, yaw + to the left. */
export interface Channels {
  readonly root: Vec3;
  readonly pelvisPitch: number;
  readonly pelvisLean: number;
  readonly pelvisYaw: number;
  readonly trunkPitch: number;
  readonly trunkLean: number;
  readonly trunkYaw: number;
  readonly headPitch: number;
  readonly headLean: number;
  readonly headYaw: number;
  readonly arms: Readonly<Record<Side, ArmChannels>>;
  readonly feet: Readonly<Record<Side, FootChannels>>;
  /** What else bears weight in this frame; absent in actions where only feet do. */
  readonly support?: Support;
}

/** Knees on the floor, seat on a stool. */
export interface Support {
  readonly leftKnee: boolean;
  readonly rightKnee: boolean;
  readonly seat: boolean;
}

/** Share of the arm's elevation above 35 degrees that the clavicle takes (laboratory notes). */
const CLAVICLE_SHARE = 0.22;
const CLAVICLE_FROM_DEG = 35;
/** A knee never quite locks: a leg asked to stretch further is an error of the action. */
const LONGEST_LEG = 0.99985;

/** Forward pitch, sideways lean and yaw as one rotation, yaw outermost. */
const bend = (pitch: number, lean: number, yaw: number): Quat => chain(aboutY(yaw), aboutX(lean), aboutZ(-pitch));

function armRotations(side: Side, arm: ArmChannels): readonly [clavicle: Quat, shoulder: Quat, elbow: Quat, wrist: Quat] {
  const s = signOf(side);
  const inChest = chain(
    aboutY(s * arm.plane), aboutX(-s * arm.elevation), aboutY(-s * arm.plane), aboutY(s * arm.twist),
  );
  const lift = CLAVICLE_SHARE * softAbove(arm.elevation - CLAVICLE_FROM_DEG);
  // Seen from the trunk the clavicle tips up about the forward axis and, for forward reaches, a little forward.
  const clavicle = chain(aboutY(s * 0.35 * lift * Math.sin(rad(arm.plane))), aboutX(-s * lift));
  const wrist = chain(aboutY(s * arm.wristTwist), aboutX(s * arm.wristFlex), aboutZ(arm.wristThumb));
  return [clavicle, mul(inverse(clavicle), inChest), aboutZ(arm.elbow), wrist];
}

/** max(0, x) with the corner rounded over about 10 degrees, so that the clavicle does not start with a jerk. */
const softAbove = (x: number): number => (x + Math.sqrt(x * x + 25)) / 2;

/** The foot's rotation in the world. */
export const footRotation = (side: Side, foot: Pick<FootChannels, 'pitch' | 'yaw'>): Quat =>
  mul(aboutY(-signOf(side) * foot.yaw), aboutZ(foot.pitch));

/** Hip rotation in the world and knee flexion (degrees) that bring the ankle to its place. */
function solveLeg(body: Body, side: Side, hip: Vec3, foot: FootChannels): { thigh: Quat; kneeDeg: number } {
  const thighLength = body.hipHeight - body.kneeHeight;
  const shankLength = body.kneeHeight - body.ankleHeight;
  const line = sub(foot.ankle, hip);
  const reach = length(line);
  if (reach > (thighLength + shankLength) * LONGEST_LEG) {
    throw new Error(`the ${side} leg would have to be ${(reach * 1000).toFixed(1)} mm long, ` +
      `it has ${((thighLength + shankLength) * 1000).toFixed(1)}`);
  }
  const cosKnee = (thighLength ** 2 + shankLength ** 2 - reach ** 2) / (2 * thighLength * shankLength);
  const cosHip = (thighLength ** 2 + reach ** 2 - shankLength ** 2) / (2 * thighLength * reach);
  const up = scale(line, -1 / reach);
  const toes = turn(aboutY(-signOf(side) * (foot.yaw + foot.kneeOut)), [1, 0, 0]);
  const forward = unit(sub(toes, scale(up, dot(toes, up))));
  const straight = fromAxes(forward, up, cross(forward, up));
  return {
    thigh: mul(straight, aboutZ(deg(Math.acos(cosHip)))),
    kneeDeg: 180 - deg(Math.acos(cosKnee)),
  };
}

/** Joint rotations and root for one frame. Throws when a leg cannot reach its foot. */
export function poseFrom(body: Body, c: Channels): Pose {
  const rotations = restRotations();
  rotations.pelvis = bend(c.pelvisPitch, c.pelvisLean, c.pelvisYaw);
  // The lower back bends first and more; twist happens mostly in the chest.
  rotations.spine = bend(c.trunkPitch * 0.55, c.trunkLean * 0.5, c.trunkYaw * 0.35);
  rotations.chest = bend(c.trunkPitch * 0.45, c.trunkLean * 0.5, c.trunkYaw * 0.65);
  rotations.neck = bend(c.headPitch * 0.45, c.headLean * 0.5, c.headYaw * 0.4);
  rotations.head = bend(c.headPitch * 0.55, c.headLean * 0.5, c.headYaw * 0.6);
  for (const side of SIDES) {
    const [clavicle, shoulder, elbow, wrist] = armRotations(side, c.arms[side]);
    rotations[`${side}Clavicle`] = clavicle;
    rotations[`${side}Shoulder`] = shoulder;
    rotations[`${side}Elbow`] = elbow;
    rotations[`${side}Wrist`] = wrist;

    const foot = c.feet[side];
    const hip = add(c.root, turn(rotations.pelvis, [0, 0, signOf(side) * body.hipHalf]));
    const { thigh, kneeDeg } = solveLeg(body, side, hip, foot);
    rotations[`${side}Hip`] = mul(inverse(rotations.pelvis), thigh);
    rotations[`${side}Knee`] = aboutZ(-kneeDeg);
    const shank = mul(thigh, rotations[`${side}Knee`]);
    rotations[`${side}Ankle`] = mul(inverse(shank), footRotation(side, foot));
    rotations[`${side}Toes`] = aboutZ(foot.toes);
  }
  return { root: c.root, rotations };
}
