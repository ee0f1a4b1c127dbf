/**
 * The pose model's habits: where its landmarks lie against the true joint centres, and how it tells depth.
 *
 * Measured on our own rendered clips whose truth is known (the tuning half; docs/method-fit.md says how), separately for
 * each size of the model. They describe the model and not the drawn figure as far as can be told: skin-coloured joints of
 * other people may lie a centimetre elsewhere. A take may differ from them; the fit has unknowns for that.
 */
import type { ModelSize } from '../../pose/track.ts';

/** Landmark minus joint centre in the carrying segment: forward, up along the segment, outward (away from the body's middle); metres. */
export type JointOffset = readonly [forward: number, up: number, outward: number];

/** In the order of POINT's pairs: shoulder (carried by the chest), elbow (upper arm), wrist (forearm), hip (pelvis), knee (thigh), ankle (shank). */
export type JointOffsets = readonly [JointOffset, JointOffset, JointOffset, JointOffset, JointOffset, JointOffset];

/** Measured depth difference = gain · true one + forward · (body's forward along the view); the rest is the take's own. */
export interface DepthHabit {
  readonly gain: number;
  readonly gainSigma: number;
  /** How much farther forward of the body the model puts the far end, metres: negative for the shank, whose ankle it draws back. */
  readonly forwardM: number;
  /** How much takes differ in their offset, metres. */
  readonly offsetSigmaM: number;
  /** What is left within a take, metres. */
  readonly sigmaM: number;
  /** How much farther from the camera it puts the left one than the true depth says, and nearer the right one; for half-axes, how much farther their left end; metres. */
  readonly twistM: number;
}

/** Upper arm, forearm, thigh, shank, hip half-axis, spine, shoulder half-axis. */
export type DepthHabits = readonly [DepthHabit, DepthHabit, DepthHabit, DepthHabit, DepthHabit, DepthHabit, DepthHabit];

export interface Habits {
  readonly offsets: JointOffsets;
  readonly depth: DepthHabits;
}

/** What is left in the depth of an arm's bone or the spine, and of a leg's, which answers late to a thigh that rises toward the lens. */
const LONG_SIGMA_M = 0.03;
const LEG_SIGMA_M = 0.045;
const depth = (gain: number, gainSigma: number, forwardM: number, offsetSigmaM: number, sigmaM = LONG_SIGMA_M, twistM = 0): DepthHabit =>
  ({ gain, gainSigma, forwardM, offsetSigmaM, sigmaM, twistM });
const HIP = depth(1.15, 0.15, 0, 0.012, 0.012);
const SHOULDER = depth(0.95, 0.2, 0, 0.02, 0.018);

/*
 * heavy is not the same for left and right: in all eight tuning clips it turned the hips to the one side and shoulders and
 * arms to the other, whatever side the camera stood on, and with the picture of one of them turned over (the performer then
 * being the mirror image of herself) the signs turned over too. So it is in the model's weights and goes for everybody.
 */

export const HABITS: Readonly<Record<ModelSize, Habits>> = {
  lite: {
    offsets: [[0.008, 0.008, -0.004], [0, 0.012, 0.004], [0, 0, 0], [0.015, -0.005, 0.007], [0.004, 0, 0], [0.007, 0.024, -0.003]],
    depth: [depth(0.5, 0.25, -0.02, 0.04), depth(0.25, 0.25, 0.08, 0.04), depth(0.55, 0.2, 0, 0.03, LEG_SIGMA_M), depth(0.4, 0.2, -0.11, 0.03, LEG_SIGMA_M),
      HIP, depth(0.3, 0.2, 0.04, 0.04), SHOULDER],
  },
  full: {
    offsets: [[0.01, 0.008, -0.004], [0, 0.012, 0.005], [0.004, 0, 0], [0.015, -0.004, 0.007], [0.004, 0, 0], [0.007, 0.022, -0.003]],
    depth: [depth(0.6, 0.25, -0.02, 0.03), depth(0.25, 0.2, 0.08, 0.04), depth(0.5, 0.15, -0.01, 0.03, LEG_SIGMA_M), depth(0.4, 0.2, -0.1, 0.03, LEG_SIGMA_M),
      HIP, depth(0.3, 0.2, 0.04, 0.04), SHOULDER],
  },
  heavy: {
    offsets: [[0.006, 0.008, -0.006], [0, 0.01, 0.005], [0.004, 0, 0], [0.014, -0.005, 0.007], [0.004, 0, 0], [0.008, 0.022, -0.002]],
    depth: [depth(0.6, 0.25, 0, 0.03, LONG_SIGMA_M, 0.039), depth(0.45, 0.25, 0.01, 0.03, LONG_SIGMA_M, 0.041), depth(0.65, 0.15, -0.02, 0.03, LEG_SIGMA_M), depth(0.5, 0.2, -0.13, 0.03, LEG_SIGMA_M),
      { ...HIP, twistM: 0.023 }, depth(0.3, 0.2, 0.04, 0.04), { ...SHOULDER, gain: 0.85, twistM: -0.021 }],
  },
};

const READ = depth(1, 0.12, 0, 0.02);
/** What is left when the reader has looked: landmarks sit where they sit, depth is told as it is, but for what a take has of its own. */
export const afterReading = ({ offsets }: Habits): Habits => ({ offsets, depth: [READ, READ, READ, READ, READ, READ, READ] });

/** Habit of each vector of depth: the 8 bones, hip half-axis, spine, shoulder half-axis. */
export const HABIT_OF_VECTOR: readonly number[] = [0, 1, 0, 1, 2, 3, 2, 3, 4, 5, 6];
