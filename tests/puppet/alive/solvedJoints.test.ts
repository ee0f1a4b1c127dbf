/** Which joints a pin or a planted foot solves, and when. */
import { describe, expect, it } from 'vitest';
import { solvedJoints } from '../../../src/puppet/alive/solvedJoints.ts';
import { completeArmature } from '../../../src/puppet/completeArmature.ts';
import { drivesOf } from '../../../src/puppet/drives.ts';
import { MARLA } from '../../../src/puppet/examples/human.ts';

const armature = completeArmature(MARLA);
const timesS = Float64Array.from({ length: 20 }, (_, s) => s / 12);
const sources = (steps: (all: readonly boolean[]) => boolean, of: Uint8Array): readonly (string | null)[] => {
  const width = armature.joints.length;
  return armature.joints.flatMap((_, p) => (steps(Array.from({ length: 20 }, (__, s) => of[s * width + p] === 1)) ? [armature.drives[p]!.from] : []));
};

describe('joints that are solved', () => {
  it('are the legs of planted feet at all times, and none without', () => {
    const drives = drivesOf(armature, { drives: null });
    const planted = sources((all) => all.every(Boolean), solvedJoints(armature, drives, { pins: [], plantFeet: true }, timesS));
    expect(planted).toEqual(expect.arrayContaining(['leftHip', 'leftKnee', 'rightHip', 'rightKnee']));
    expect(planted.some((from) => from === null || /houlder|lbow|spine|head/.test(from))).toBe(false);
    expect(solvedJoints(armature, drives, { pins: [], plantFeet: false }, timesS).some((one) => one === 1)).toBe(false);
  });

  it('are the arm of a pinned hand while it is pinned, goes there and comes away', () => {
    const hand = armature.bones.find((_, b) => armature.drives[b]!.from === 'leftWrist') ?? armature.bones.find((_, b) => armature.drives[b]!.from === 'leftElbow')!;
    const of = solvedJoints(armature, drivesOf(armature, { drives: null }), { pins: [{ bone: hand.name, at: 1, fromS: 0.5, toS: 1, targetMm: null, easeSteps: 2 }], plantFeet: false }, timesS);
    const arm = sources((all) => all.every((on, s) => on === (s >= 4 && s <= 14)), of);
    expect(arm).toEqual(expect.arrayContaining(['leftShoulder', 'leftElbow']));
    expect(sources((all) => all.some(Boolean), of)).toEqual(arm);
  });
});
