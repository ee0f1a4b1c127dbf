import { describe, expect, it } from 'vitest';
import { NO_CORRECTIONS, type Corrections } from '../../../src/motion/corrections/corrections.ts';
import { flipSpan } from '../../../src/motion/corrections/flipSpan.ts';
import { unreadFitter } from '../fit/unread.ts';
import type { FittedBody } from '../../../src/motion/fit/fittedBody.ts';
import { BONE_COUNT, FIGURE_LANDMARKS } from '../../../src/motion/fit/layout.ts';
import { LANDMARK } from '../../../src/pose/landmarks.ts';
import { film, FRONT, stand, STANDING, times } from '../fit/syntheticTake.ts';
import { pointM } from './take.ts';

/** She swings an arm forward to 50° and back; from 1 s to 3 s it leans at the lens. */
const take = film(times(4, 30), (timeS) => {
  const lift = Math.sin(Math.PI * Math.min(1, Math.max(0, (timeS - 1) / 2))) ** 2;
  return stand({ ...STANDING, arms: [STANDING.arms[0], { forward: 50 * lift, sideways: 10, elbow: 15 }] });
}, FRONT);
const fitter = unreadFitter();
const fit = (change: Partial<Corrections>): FittedBody => fitter.fit(take.track, 1, { ...NO_CORRECTIONS, slate: { kind: 'none' }, ...change });
const base = fit({});
/** How far a joint of the right arm is nearer to the lens than the one above it, metres. */
const toLens = (body: FittedBody, t: number, bone: 'upper' | 'lower'): number => bone === 'upper'
  ? pointM(body, t, 'rightElbow')[0] - pointM(body, t, 'rightShoulder')[0] : pointM(body, t, 'rightWrist')[0] - pointM(body, t, 'rightElbow')[0];
const seen = (body: FittedBody, t: number, point: number): number[] => [...body.figureImage.subarray((t * 12 + point) * 2, (t * 12 + point) * 2 + 2)];

describe('a limb turned over in depth', { timeout: 60_000 }, () => {
  const flip = { limb: 'rightArm', bone: 'both', fromS: 1.2, toS: 2.8 } as const;
  const body = fit({ depthFlips: [flip] });

  it('leans the other way over the span, and keeps its picture', () => {
    for (let t = 50; t <= 70; t += 5) {
      expect(toLens(base, t, 'upper')).toBeGreaterThan(0.08);
      expect(toLens(body, t, 'upper'), `frame ${t}`).toBeLessThan(-0.05);
      for (const name of ['rightElbow', 'rightWrist'] as const) {
        const point = FIGURE_LANDMARKS.indexOf(LANDMARK[name]);
        const [a, b] = [seen(base, t, point), seen(body, t, point)];
        expect(Math.hypot((a[0]! - b[0]!) * 640, (a[1]! - b[1]!) * 720)).toBeLessThan(10);
      }
    }
  });

  it('leaves what is half a second away from the span alone, and goes over without a jump', () => {
    for (const t of [0, 20, 100, 119]) for (let k = 0; k < 3; k++) expect(pointM(body, t, 'rightWrist')[k]).toBeCloseTo(pointM(base, t, 'rightWrist')[k]!, 9);
    for (let t = 1; t < 120; t++) expect(Math.abs(toLens(body, t, 'upper') - toLens(body, t - 1, 'upper')), `frame ${t}`).toBeLessThan(0.06);
  });

  it('of one bone turns that bone alone; twice over the same span is none', () => {
    // The forearm alone would bend the elbow backwards, which the fit does not do for anyone.
    const upper = fit({ depthFlips: [{ ...flip, bone: 'upper' }] });
    expect(toLens(upper, 60, 'upper')).toBeLessThan(-0.08);
    expect(toLens(upper, 60, 'lower')).toBeGreaterThan(0.08);
    expect(toLens(fit({ depthFlips: [flip, flip] }), 60, 'upper')).toBeGreaterThan(0.08);
  });

  it('spans from where the limb lies in the picture to where it does again', () => {
    const span = flipSpan(base, 60, { limb: 'rightArm', bone: 'both' });
    expect(span.fromS).toBeGreaterThan(0.4);
    expect(span.fromS).toBeLessThan(1.9);
    expect(span.toS).toBeGreaterThan(2.1);
    expect(span.toS).toBeLessThan(3.5);
  });

  it('spans the bones that are meant, and the frame alone where they do not lean', () => {
    const boneInPlane = new Float64Array(5 * BONE_COUNT).fill(1);
    // the left forearm leaves the plane of the picture in frames 1 to 3
    for (const t of [1, 2, 3]) boneInPlane[t * BONE_COUNT + 1] = 0.6;
    const body = { timesS: Float64Array.from([0, 0.1, 0.2, 0.3, 0.4]), boneInPlane };
    expect(flipSpan(body, 2, { limb: 'leftArm', bone: 'both' })).toEqual({ fromS: 0.1, toS: 0.3 });
    expect(flipSpan(body, 2, { limb: 'leftArm', bone: 'upper' })).toEqual({ fromS: 0.2, toS: 0.2 });
    expect(flipSpan(body, 2, { limb: 'rightArm', bone: 'both' })).toEqual({ fromS: 0.2, toS: 0.2 });
  });
});
