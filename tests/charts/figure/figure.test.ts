import { describe, expect, it } from 'vitest';
import { boxOf, FIGURE_JOINT_KINDS, onStage, travelMm } from '../../../src/charts/figure/figure.ts';
import { flatFigure } from '../../../src/charts/figure/flat.ts';
import { jointSymbol } from '../../../src/charts/figure/jointSymbol.ts';
import { placeNotes } from '../../../src/charts/figure/notes.ts';
import { VIEWS } from '../../../src/charts/figure/view.ts';
import { SAMPLE_FIGURE, samplePose } from './sampleFigure.ts';

describe('a figure', () => {
  it('puts points of its parts on the stage', () => {
    // A quarter turn about Z lays the thigh back, away from the camera.
    const [x, y, z] = onStage(samplePose(90), 1, [0, 100, 0]);
    expect([x, y, z].map((v) => Math.round(v * 1e9) / 1e9 + 0)).toEqual([-100, 100, 0]);
  });

  it('knows how far the ends of its parts went', () => {
    const way = travelMm(SAMPLE_FIGURE, samplePose(0), samplePose(60));
    expect(way[0]).toBe(0);
    // A chord of 60° on a radius of 100 mm.
    expect(way[1]).toBeCloseTo(100, 9);
    expect(travelMm(SAMPLE_FIGURE, samplePose(0), samplePose(Number.NaN))[1]).toBeNaN();
  });

  it('has a box that holds every pose, thickness included', () => {
    const { min, max } = boxOf(SAMPLE_FIGURE, [samplePose(0), samplePose(90)]);
    expect(min.map(Math.round)).toEqual([-110, -8, -10]);
    expect(max.map(Math.round)).toEqual([10, 210, 10]);
    expect(boxOf(SAMPLE_FIGURE, [])).toEqual({ min: [-50, 0, -50], max: [50, 100, 50] });
  });

  it('is drawn flat to scale, the nearer part last, with the floor as a line', () => {
    const paper = { widthPx: 300, heightPx: 500, pxPerMm: 2, centreMm: [0, 100, 0] as const };
    const flat = flatFigure(SAMPLE_FIGURE, samplePose(-45), VIEWS.front, paper);
    expect(flat.floorY).toBe(450);
    expect(flat.bones.map((b) => b.part)).toEqual([0, 1]);
    expect(flat.bones[1]).toMatchObject({ x1: 150, y1: 250, widthPx: 40 });
    expect(flat.bones[1]!.y2).toBeCloseTo(250 - 2 * 100 * Math.SQRT1_2, 6);
    expect(flat.joints).toEqual([{ part: 1, kind: 'hinge', x: 150, y: 250, radiusPx: 12 }]);
    expect(flatFigure(SAMPLE_FIGURE, samplePose(45), VIEWS.front, paper).bones.map((b) => b.part)).toEqual([1, 0]);
    expect(flatFigure(SAMPLE_FIGURE, samplePose(0), VIEWS.top, paper).floorY).toBeUndefined();
    expect(flatFigure(SAMPLE_FIGURE, samplePose(Number.NaN), VIEWS.front, paper).bones.length).toBe(1);
  });

  it('has a sign of its own for every kind of joint', () => {
    expect(new Set(FIGURE_JOINT_KINDS.map((kind) => jointSymbol(kind, 8))).size).toBe(FIGURE_JOINT_KINDS.length);
  });
});

describe('notes on a picture', () => {
  it('stand at the side of their points, never on each other, and inside the paper', () => {
    const notes = Array.from({ length: 20 }, (_, i) => ({ x: i % 2 === 0 ? 100 : 200, y: 280 + i, words: `note ${i}` }));
    const placed = placeNotes(notes, 300, 20, 300, 19, 10);
    for (const anchor of ['start', 'end'] as const) {
      const ys = placed.filter((n) => n.anchor === anchor).map((n) => n.textY).sort((a, b) => a - b);
      expect(ys.length).toBe(10);
      expect(ys.every((y) => y >= 20 && y <= 300)).toBe(true);
      ys.slice(1).forEach((y, i) => expect(y - ys[i]!).toBeGreaterThanOrEqual(18.99));
    }
    expect(placed.filter((n) => n.anchor === 'start').every((n) => n.x === 100)).toBe(true);
  });
});
