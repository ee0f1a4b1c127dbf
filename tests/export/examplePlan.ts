/** A small plan with every kind of joint, a bridged and a missing stretch, for the tests of files. */
import type { ExportTake } from '../../src/export/exportTake.ts';
import { makePlan } from '../../src/plan/makePlan.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { STANDARD_ARMATURE } from '../../src/puppet/standard.ts';
import type { Armature } from '../../src/puppet/armature.ts';
import { DEFAULT_TIMING, type TimingSettings } from '../../src/timing/timingSettings.ts';
import { evenTimes, loseFrame, trackOf, turnX, turnZ, type FigurePose } from '../motion/figure.ts';

const times = evenTimes(60, 30);
const track = trackOf([...times].map((t): FigurePose => ({
  head: turnX(0.3 * Math.sin(3 * t)), rightShoulder: turnZ(t), rightElbow: 1 + 0.5 * Math.sin(4 * t), leftElbow: 1, leftKnee: 1, rightKnee: 1,
})), times);
loseFrame(track, 10);
for (let t = 30; t < 45; t++) loseFrame(track, t);

const armature: Armature = {
  ...STANDARD_ARMATURE,
  joints: STANDARD_ARMATURE.joints.map((joint) => (joint.name === 'neck' ? { ...joint, kind: 'swivel' } : joint)),
};

export const exampleSettings = { ...DEFAULT_SETTINGS, timeScale: 1.1 };
export const examplePlan = makePlan(track, armature, exampleSettings);
export const exampleTake: ExportTake = {
  name: '=Marla, "jar".webm', hash: 'ab12', durationS: 2.0000004, frames: 60, framesPosed: 44, width: 800, height: 1000,
  model: 'full', rateText: '30 constant',
};

/** The same take with a moment held, a stretch on ones, and the extremes of the right elbow on steps. */
export const exampleTiming: TimingSettings = {
  ...DEFAULT_TIMING,
  marks: [
    { id: 'a', sourceS: 0.25, filmS: 6 / 24, locked: true, kind: 'placed', name: 'reach' },
    { id: 'b', sourceS: 0.25, filmS: 12 / 24, locked: false, kind: 'end', name: '' },
  ],
  holdSpans: [{ fromExposure: 20, on: 1 }, { fromExposure: 31, on: 3 }],
  snapJoints: ['rightElbow'],
  gauge: '35 mm',
};
export const retimedPlan = makePlan(track, armature, exampleSettings, { timing: exampleTiming });
