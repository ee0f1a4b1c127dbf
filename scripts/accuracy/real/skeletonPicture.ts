/**
 * A picture of a fitted body over plain ground, as SVG: from where the camera stood and from the performer's side. Nothing of the
 * footage is in it. Left limbs are dashed, right ones drawn through.
 */
import type { FittedBody } from '../../../src/motion/fit/fittedBody.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../../src/pose/landmarks.ts';

const INK = '#f1e7d8';
const GROUND = '#8a7a66';
const PAPER = '#2a2521';
const PX_PER_M = 110;
const CELL_M = 1.9;
const ROW_M = 2.05;
/** Room for the words where only one pose is shown. */
const LEAST_M = 3.2;
const MARGIN_PX = 34;

const MIDDLE: readonly (readonly [LandmarkName, LandmarkName])[] = [['leftShoulder', 'rightShoulder'], ['leftHip', 'rightHip']];
const limb = (side: 'left' | 'right'): readonly (readonly [LandmarkName, LandmarkName])[] => [
  [`${side}Shoulder`, `${side}Elbow`], [`${side}Elbow`, `${side}Wrist`], [`${side}Shoulder`, `${side}Hip`], [`${side}Hip`, `${side}Knee`],
  [`${side}Knee`, `${side}Ankle`], [`${side}Ankle`, `${side}Heel`], [`${side}Heel`, `${side}FootIndex`], [`${side}FootIndex`, `${side}Ankle`],
];

type Point = readonly [across: number, up: number];

function poseMarks(body: FittedBody, t: number, across: 0 | 2, originX: number, groundY: number): string {
  // Stage axes: X toward the camera, Z to the left of the picture. Each pose stands under its own middle.
  const at = (name: LandmarkName): Point => {
    const p = (c: number): number => body.pointsM[(t * LANDMARK_COUNT + LANDMARK[name]) * 3 + c]!;
    const sideways = across === 2 ? -p(2) : p(0);
    return [originX + PX_PER_M * sideways, groundY - PX_PER_M * (p(1) + body.rootM[t * 3 + 1]!)];
  };
  const line = ([a, b]: readonly [LandmarkName, LandmarkName], dash: string): string => {
    const [[x1, y1], [x2, y2]] = [at(a), at(b)];
    return `<line x1="${x1.toFixed(1)}" y1="${y1.toFixed(1)}" x2="${x2.toFixed(1)}" y2="${y2.toFixed(1)}"${dash}/>`;
  };
  const [ex, ey] = at('leftEar');
  const [fx, fy] = at('rightEar');
  const [nx, ny] = at('nose');
  const head = `<circle cx="${((ex + fx) / 2).toFixed(1)}" cy="${((ey + fy) / 2).toFixed(1)}" r="${(0.09 * PX_PER_M).toFixed(1)}" fill="none"/>`
    + `<circle cx="${nx.toFixed(1)}" cy="${ny.toFixed(1)}" r="2" fill="${INK}" stroke="none"/>`;
  return [
    head, ...MIDDLE.map((bone) => line(bone, '')), ...limb('right').map((bone) => line(bone, '')), ...limb('left').map((bone) => line(bone, ' stroke-dasharray="5 4"')),
  ].join('');
}

/** @param frames which to show, from left to right @param title what it is, for readers who do not see it */
export function skeletonPicture(body: FittedBody, frames: readonly number[], title: string): string {
  const cellM = Math.max(CELL_M, LEAST_M / frames.length);
  const width = 2 * MARGIN_PX + frames.length * cellM * PX_PER_M;
  const row = ROW_M * PX_PER_M;
  const height = 2 * row + MARGIN_PX * 2;
  const rows = ([[2, 'as the camera saw it'], [0, 'from the side; the camera is on the right']] as const).map(([across, word], r) => {
    const ground = MARGIN_PX + (r + 1) * row - 24;
    const poses = frames.map((t, k) => {
      const x = MARGIN_PX + (k + 0.5) * cellM * PX_PER_M;
      return poseMarks(body, t, across, x, ground)
        + (r === 1 ? `<text x="${x.toFixed(0)}" y="${(ground + 38).toFixed(0)}" text-anchor="middle">${body.timesS[t]!.toFixed(1)} s</text>` : '');
    }).join('\n');
    return `<line x1="${MARGIN_PX}" y1="${ground}" x2="${width - MARGIN_PX}" y2="${ground}" stroke="${GROUND}"/>`
      + `<text x="${MARGIN_PX}" y="${(ground - row + 44).toFixed(0)}">${word}</text>\n${poses}`;
  }).join('\n');
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width.toFixed(0)} ${height.toFixed(0)}" role="img">
<title>${title}</title>
<rect width="100%" height="100%" fill="${PAPER}"/>
<g stroke="${INK}" stroke-width="2.4" stroke-linecap="round" font-family="sans-serif" font-size="14">
<style>text{fill:${INK};stroke:none}</style>
${rows}
</g>
</svg>
`;
}
