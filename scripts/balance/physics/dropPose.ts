/**
 * Lets a pose go in a rigid-body engine (Rapier): the puppet as one stiff body with the mass and inertia of its bones, its
 * standing soles as convex blocks on a level floor, and says how far it has tilted after a while.
 *
 * In decimetres, so that a puppet is about as large as what the engine's tolerances are made for.
 */
import RAPIER from '@dimforge/rapier3d-compat';
import { GRAVITY_M_S2 } from '../../../src/puppet/timeScale.ts';
import { multiply, shortestArc, type Quat } from '../../../src/numeric/quaternion.ts';
import type { CompleteArmature } from '../../../src/puppet/complete.ts';
import { placed, type RandomPose } from './randomPoses.ts';

const MM = 0.01;
const KG_PER_G = 1e-3;
const STEP_S = 1 / 480;
/** Height of the block that stands for a sole, mm. */
const BLOCK_MM = 3;
/** Radius of a prop, mm. */
const PROP_MM = 10;

let ready: Promise<void> | null = null;

/** Starts the engine once. */
export function startEngine(): Promise<void> {
  ready ??= RAPIER.init();
  return ready;
}

/** @returns degrees between what was upright and the vertical after `seconds`; the engine must have been started */
export function tiltAfter(armature: CompleteArmature, pose: RandomPose, seconds: number): number {
  const world = new RAPIER.World({ x: 0, y: -GRAVITY_M_S2 * 10, z: 0 });
  world.timestep = STEP_S;
  world.numSolverIterations = 12;
  const floor = world.createRigidBody(RAPIER.RigidBodyDesc.fixed());
  world.createCollider(RAPIER.ColliderDesc.cuboid(50, 1, 50).setTranslation(0, -1, 0).setFriction(1), floor);
  const puppet = world.createRigidBody(RAPIER.RigidBodyDesc.dynamic().setCanSleep(false));
  const { at, turn } = placed(armature, pose);

  const weigh = (massG: number, placeMm: readonly [number, number, number], inertia: readonly [number, number, number], frame: Quat): void => {
    const [x, y, z] = placeMm;
    const [w, qx, qy, qz] = frame;
    // a speck that touches nothing and only brings mass
    world.createCollider(RAPIER.ColliderDesc.ball(0.01).setCollisionGroups(0).setMassProperties(
      massG * KG_PER_G, { x: x * MM, y: y * MM, z: z * MM }, { x: inertia[0], y: inertia[1], z: inertia[2] }, { w, x: qx, y: qy, z: qz },
    ), puppet);
  };
  armature.bones.forEach(({ massG, massAt, lengthMm, along, radiusMm }, bone) => {
    if (!(massG > 0)) return;
    // a solid cylinder about its length
    const [r, l] = [radiusMm * MM, lengthMm * MM];
    const across = (massG * KG_PER_G * (3 * r * r + l * l)) / 12;
    weigh(massG, at(bone, [along[0] * lengthMm * massAt, along[1] * lengthMm * massAt, along[2] * lengthMm * massAt]),
      [across, (massG * KG_PER_G * r * r) / 2, across], multiply(turn(bone), shortestArc([0, 1, 0], along)));
  });
  if (pose.prop !== null && pose.prop.massG > 0) {
    const { bone, atMm, massG } = pose.prop;
    const ball = 0.4 * massG * KG_PER_G * (PROP_MM * MM) ** 2;
    weigh(massG, at(armature.bones.findIndex(({ name }) => name === bone), atMm), [ball, ball, ball], [1, 0, 0, 0]);
  }
  for (const { bone } of pose.standing) {
    const { outlineMm, dropMm } = armature.bones[bone]!.sole!;
    const corners = outlineMm.flatMap(([x, z]) => [-dropMm, -dropMm + BLOCK_MM].flatMap((y) => at(bone, [x, y, z]).map((mm) => mm * MM)));
    const block = RAPIER.ColliderDesc.convexHull(Float32Array.from(corners));
    if (block === null) throw new Error(`${armature.bones[bone]!.name} has a sole that makes no block.`);
    world.createCollider(block.setDensity(0).setFriction(1).setRestitution(0), puppet);
  }
  for (let s = 0; s < seconds / STEP_S; s++) world.step();
  const { x, z } = puppet.rotation();
  world.free();
  // the second column of the rotation: where up points now
  return (Math.acos(Math.max(-1, Math.min(1, 1 - 2 * (x * x + z * z)))) * 180) / Math.PI;
}
