/**
 * Poses said to stand stand, and poses said to fall fall, in a rigid-body engine (Rapier, Apache-2.0). A sample; `npm run balance` tries 300 and
 * lists the misses.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { startEngine, tiltAfter } from '../../scripts/balance/physics/dropPose.ts';
import { FALLEN_FROM_DEG, STANDS_BELOW_DEG, tryPoses, type TriedPose } from '../../scripts/balance/physics/tryPoses.ts';
import { feetOf } from '../../src/puppet/feet.ts';

/** The engine lets soles sink in by a tenth of a millimetre; nearer to the edge than this its word is no better than ours, mm. */
const ENGINE_MM = 0.6;

describe('against rigid bodies', () => {
  let tried: readonly TriedPose[];
  beforeAll(async () => {
    tried = await tryPoses(8, 501);
  }, 120_000);

  it('has poses of either kind', () => {
    expect(tried.filter(({ verdict }) => verdict === 'holds').length).toBeGreaterThan(6);
    expect(tried.filter(({ verdict }) => verdict === 'falls').length).toBeGreaterThan(6);
  });

  it('those judged to hold stand, those judged to fall fall, and the rest end on their side of the edge', () => {
    for (const { puppet, seed, verdict, marginMm, tiltDeg } of tried) {
      const where = `${puppet} ${seed}, ${marginMm.toFixed(2)} mm, ${tiltDeg.toFixed(0)}°`;
      if (verdict === 'holds' || marginMm > ENGINE_MM) expect(tiltDeg, where).toBeLessThan(STANDS_BELOW_DEG);
      if (verdict === 'falls' || marginMm < -ENGINE_MM) expect(tiltDeg, where).toBeGreaterThan(FALLEN_FROM_DEG);
    }
  });

  it('the edge is where the engine has it: Marla at rest on both feet, with more and more in front of her', async () => {
    await startEngine();
    const armature = completeArmature(MARLA);
    const rest = Float64Array.from({ length: armature.bones.length * 4 }, (_, i) => (i % 4 === 0 ? 1 : 0));
    // the soles end 32 mm in front of the ankles; a weight w at 132 mm brings the centre of mass there when w·100 = m·(32 - x)
    const mass = armature.bones.reduce((sum, { massG }) => sum + massG, 0);
    const tilt = (massG: number): number => tiltAfter(armature, {
      rotations: rest, rootMm: [0, armature.rootHeightMm, 0], standing: feetOf(armature, armature.drives),
      prop: { name: 'tray', bone: 'pelvis', atMm: [132, 0, 0], massG, fromS: -1, toS: 1 },
    }, 3);
    const restX = armature.bones.reduce((sum, { massG, massAt, lengthMm, along, name }) => sum + (name.endsWith('Foot') ? massG * massAt * lengthMm * along[0] : 0), 0) / mass;
    const just = (mass * (32 - restX)) / 100;
    expect(tilt(just * 0.94)).toBeLessThan(STANDS_BELOW_DEG);
    expect(tilt(just * 1.03)).toBeGreaterThan(FALLEN_FROM_DEG);
  });
});
