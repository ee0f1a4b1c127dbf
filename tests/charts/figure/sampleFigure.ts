/** A made-up figure of two stiff parts: a shank that stands on the stage and a thigh on a knee, 100 mm each. */
import type { FigurePose, FigureShape } from '../../../src/charts/figure/figure.ts';

export const SAMPLE_FIGURE: FigureShape = {
  name: 'Leg',
  heightMm: 200,
  parts: [
    { name: 'shank', side: 'right', fromMm: [0, 0, 0], toMm: [0, 100, 0], radiusMm: 8, joint: null, soleMm: [[-20, 0, -10], [40, 0, -10], [40, 0, 10], [-20, 0, 10]] },
    { name: 'thigh', side: 'right', fromMm: [0, 0, 0], toMm: [0, 100, 0], radiusMm: 10, joint: { name: 'knee', kind: 'hinge', axis: [0, 0, 1], radiusMm: 6 }, soleMm: [] },
  ],
};

/** The thigh turned about Z by so many degrees; positive leans it back, away from the camera. */
export function samplePose(deg: number): FigurePose {
  const half = (deg * Math.PI) / 360;
  return { originMm: [0, 0, 0, 0, 100, 0], rotations: [1, 0, 0, 0, Math.cos(half), 0, 0, Math.sin(half)] };
}
