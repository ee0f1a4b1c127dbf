import { describe, expect, it } from 'vitest';
import { nameOfView, orbited, paperFor, project, roundMm, underGlass, VIEWS, viewAxes } from '../../../src/charts/figure/view.ts';

const close = (v: readonly number[], wanted: readonly number[]): void => wanted.forEach((w, i) => expect(v[i]).toBeCloseTo(w, 9));

describe('views of the stage', () => {
  it('look from the camera, from the puppet’s right and from above, always with a right-handed paper', () => {
    // X is toward the camera, so from the front it is toward the eye; Z is left in the picture.
    close(viewAxes(VIEWS.front).toward, [1, 0, 0]);
    close(viewAxes(VIEWS.front).right, [0, 0, -1]);
    close(viewAxes(VIEWS.side).toward, [0, 0, 1]);
    close(viewAxes(VIEWS.side).right, [1, 0, 0]);
    close(viewAxes(VIEWS.top).toward, [0, 1, 0]);
    // From above the camera's side is below, as when one stands behind the camera and leans over the stage.
    close(viewAxes(VIEWS.top).up, [-1, 0, 0]);
    close(viewAxes(VIEWS.turned).up, (({ toward: t, right: r }) => [t[1] * r[2] - t[2] * r[1], t[2] * r[0] - t[0] * r[2], t[0] * r[1] - t[1] * r[0]])(viewAxes(VIEWS.turned)));
  });

  it('are true to scale: 10 mm are ten times the scale on the paper, and down is down', () => {
    const paper = { widthPx: 200, heightPx: 100, pxPerMm: 3, centreMm: [0, 0, 0] as const };
    const axes = viewAxes(VIEWS.front);
    expect(project(axes, paper, [0, 10, 0])).toMatchObject({ x: 100, y: 20 });
    expect(project(axes, paper, [0, 0, 10])).toMatchObject({ x: 70, y: 50 });
    expect(project(axes, paper, [7, 0, 0]).nearMm).toBeCloseTo(7, 12);
  });

  it('go round without end, but not over the top', () => {
    expect(orbited(VIEWS.front, 200, 0).turnDeg).toBe(-160);
    expect(orbited(VIEWS.front, 0, 200).raiseDeg).toBe(90);
    expect(orbited(VIEWS.front, 0, -200).raiseDeg).toBe(-10);
    expect(nameOfView(orbited(orbited(VIEWS.side, 30, 0), -30, 0))).toBe('side');
    expect(nameOfView(orbited(VIEWS.side, 30, 0))).toBeNull();
  });

  it('fit a box whole, and from any side when asked', () => {
    const box = { min: [-30, 0, -100], max: [30, 280, 100] } as const;
    const axes = viewAxes(VIEWS.front);
    const paper = paperFor(box, axes, 400, 300, 10);
    expect(paper.pxPerMm).toBeCloseTo(1, 9);
    expect(project(axes, paper, [0, 280, 0]).y).toBeCloseTo(10, 9);
    const round = paperFor(box, null, 400, 300, 10);
    for (let turnDeg = -180; turnDeg < 180; turnDeg += 15) for (const raiseDeg of [0, 16]) for (const corner of [[-30, 280, 100], [30, 0, -100]] as const) {
      const { x, y } = project(viewAxes({ turnDeg, raiseDeg }), round, corner);
      expect(Math.min(x, 400 - x, y, 300 - y)).toBeGreaterThan(0);
    }
  });

  it('keep the point in the middle of a shift where it is put', () => {
    const axes = viewAxes(VIEWS.turned);
    const paper = paperFor({ min: [-30, 0, -100], max: [30, 280, 100] }, null, 400, 300, 10);
    const point = [12, 130, -7] as const;
    const from = project(axes, paper, point);
    const to = project(axes, underGlass(paper, axes, 1, [25, -40]), point);
    expect(to.x - from.x).toBeCloseTo(25, 9);
    expect(to.y - from.y).toBeCloseTo(-40, 9);
    const near = project(axes, underGlass(paper, axes, 2, [0, 0]), point);
    expect(near.x - 200).toBeCloseTo(2 * (from.x - 200), 9);
  });

  it('choose round lengths', () => {
    expect(roundMm(3, 60)).toBe(20);
    expect(roundMm(0.2, 60)).toBe(500);
  });
});
