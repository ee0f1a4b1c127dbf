import { describe, expect, it } from 'vitest';
import { drawFittedFigure, inFrame, onCanvas } from '../../src/charts/fittedFigure.ts';
import type { Pen } from '../../src/charts/skeleton.ts';
import { LANDMARK, type LandmarkName } from '../../src/pose/landmarks.ts';

const LOOK = { ink: 'ink', edge: 'edge', fontFamily: 'x', bonePx: 4 };
const PLACE = { x: 10, y: 20, width: 200, height: 400, mirror: false };

function draw(mirror: boolean, chosen: string | null = null): { dashed: number; whole: number; squares: number; circles: number } {
  const seen = { dashed: 0, whole: 0, squares: 0, circles: 0 };
  let dash: number[] = [];
  let corners = 0;
  const pen = {
    strokeStyle: '', fillStyle: '', lineWidth: 1, lineCap: 'butt', lineJoin: 'miter',
    beginPath: () => { corners = 0; },
    moveTo: () => undefined,
    lineTo: () => { corners += 1; },
    arc: () => { seen.circles += 1; },
    fill: () => { if (corners === 5) seen.squares += 1; },
    stroke: () => {
      if (pen.strokeStyle !== 'ink' || corners !== 1) return;
      if (dash.length > 0) seen.dashed += 1;
      else seen.whole += 1;
    },
    setLineDash: (d: number[]) => { dash = d; },
  };
  // One joint is not known: its bones are left out.
  drawFittedFigure(pen as unknown as Pen, (name: LandmarkName) => (name === 'leftAnkle' ? null : { x: LANDMARK[name] / 40, y: 0.5, byHand: name === 'leftElbow' }), { ...PLACE, mirror }, LOOK, chosen);
  return seen;
}

describe('the fitted figure', () => {
  it('has hollow bones, whole on the left and dashed on the right, the other way round in a mirror', () => {
    // 12 bones less the left shank, two edges each; 5 on the right, 4 on the left, 2 across.
    expect(draw(false)).toEqual({ dashed: 10, whole: 12, squares: 1, circles: 10 });
    expect(draw(true)).toMatchObject({ dashed: 8, whole: 14 });
  });

  it('rings the chosen joint', () => {
    expect(draw(false, 'rightKnee').circles).toBe(12);
  });

  it('finds the way from the picture to the frame and back', () => {
    for (const mirror of [false, true]) {
      const place = { ...PLACE, mirror };
      const there = onCanvas({ x: 0.25, y: 0.75 }, place);
      expect(there).toEqual({ x: mirror ? 160 : 60, y: 320 });
      expect(inFrame(there, place)).toEqual({ x: 0.25, y: 0.75 });
    }
  });
});
