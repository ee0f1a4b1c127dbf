import { describe, expect, it } from 'vitest';
import { angleErrors } from '../../scripts/calibrate/angleErrors.ts';
import { coverage, coverageTable, rmsDeg, turnTable, unsureFacts } from '../../scripts/calibrate/coverage.ts';
import { makeTurnModel } from '../../scripts/calibrate/makeModel.ts';
import { type JointFrame, turnFrames } from '../../scripts/calibrate/samples.ts';
import { readTruth } from '../../scripts/accuracy/truthFile.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { ERROR_CLASSES, TURN_CLASSES } from '../../src/motion/trust/errorClasses.ts';
import { errorDegOf } from '../../src/motion/trust/errorModel.ts';
import { STRAIGHT, TURN_PREDICTOR_COUNT } from '../../src/motion/trust/predictors.ts';
import { TURN_LIMIT_DEG } from '../../src/motion/trust/unsure.ts';
import { gaussian } from '../motion/figure.ts';
import { faultlessTrack } from '../accuracy/faultlessTrack.ts';
import { fileURLToPath } from 'node:url';

const frame = (deg: number, errorDeg: number, rest: Partial<JointFrame> = {}): JointFrame => ({
  clip: 0, errorClass: 0, deg: [deg], turn: null, x: new Float64Array(0), errorDeg, unsure: 0, bridged: false, ...rest,
});

describe('coverage', () => {
  const frames = Array.from({ length: 50 }, (_, i) => frame(i % 2 === 0 ? 1 : -3 * (1 + (i % 5)), 2 + i / 10));
  it('counts errors within what was said, signs or not, overall and by fifths of what was said', () => {
    const found = coverage(frames, ({ errorDeg }) => errorDeg);
    expect(found.n).toBe(50);
    expect(found.within).toBeCloseTo(frames.filter(({ deg, errorDeg }) => Math.abs(deg[0]!) <= errorDeg).length / 50, 12);
    expect(found.fifths).toHaveLength(5);
    expect(found.fifths.reduce((sum, { within }) => sum + within, 0) / 5).toBeCloseTo(found.within, 12);
    expect(found.fifths[4]!.saidDeg).toBeGreaterThan(found.fifths[0]!.saidDeg);
  });
  it('tells sure from unsure; what is bridged is unsure', () => {
    const facts = unsureFacts([frame(3, 1), frame(4, 1, { unsure: 1 }), frame(5, 1, { bridged: true }), frame(1, 1)]);
    expect(facts.share).toBe(0.5);
    expect(facts.sureRmsDeg).toBeCloseTo(Math.sqrt(5), 12);
    expect(facts.unsureRmsDeg).toBeCloseTo(Math.sqrt(20.5), 12);
    expect(rmsDeg([])).toBeNaN();
    expect(coverageTable([frame(1, 2)], ({ errorDeg }) => errorDeg).join('\n')).not.toContain('NaN');
  });
});

describe('errors of a faultless track', () => {
  it('are none; hands and feet hang on the turn about a straight limb, which no landmark shows', () => {
    const truth = readTruth(fileURLToPath(new URL('../../reference-clips/one-leg-reach.truth.json', import.meta.url)));
    const motion = trackToMotion(faultlessTrack(truth, truth.camera.azimuthDeg), { captureFactor: 1, mirror: false, cutoffHz: 0 });
    for (const at of [0, 40, 80, 120]) {
      for (const { errorClass, deg } of angleErrors(truth, motion, at)) {
        if (['wrist', 'ankle'].includes(ERROR_CLASSES[errorClass]!)) continue;
        // truth is rounded to 0.01° and its quaternions to 1e-5
        for (const error of deg) expect(Math.abs(error), `${ERROR_CLASSES[errorClass]} ${at}`).toBeLessThan(0.2);
      }
    }
  });
});

describe('the turn about the bone', () => {
  /** Of known size: 6° where the elbow is bent, 24° where it is straight; how far the direction is off says nothing of it. */
  const random = gaussian(3);
  const frames = Array.from({ length: 1200 }, (_, i): JointFrame => {
    const x = new Float64Array(TURN_PREDICTOR_COUNT);
    x[STRAIGHT] = i % 3 === 0 ? 1 : 0;
    const turnClass = i % TURN_CLASSES.length;
    return frame(90, 3, { clip: i % 5, turn: { turnClass, deg: random() * 6 * (x[STRAIGHT] === 1 ? 4 : 1), x } });
  });

  it('is calibrated as if it were a joint of its own', () => {
    const { model, says } = makeTurnModel(turnFrames(frames));
    const said = (turnClass: number, straight: number): number => {
      const x = new Float64Array(TURN_PREDICTOR_COUNT);
      x[STRAIGHT] = straight;
      return errorDegOf(model, turnClass, x);
    };
    for (const k of TURN_CLASSES.keys()) {
      // the 68 % quantile of 100 and 200 normal values is good to 10 and 7 % (one sigma): three of them
      expect(Math.abs(said(k, 0) / 6 - 1), TURN_CLASSES[k]).toBeLessThan(0.21);
      expect(Math.abs(said(k, 1) / 24 - 1), TURN_CLASSES[k]).toBeLessThan(0.3);
    }
    expect(model.limitDeg).toEqual(TURN_CLASSES.map(() => TURN_LIMIT_DEG));
    expect(says).toContain('wrist ×');
    const table = turnTable(turnFrames(frames), ({ errorClass }) => (errorClass === 3 ? 40 : 10), model.limitDeg);
    expect(table.map((row) => row.split(' | ')[0])).toEqual(['| turn about the bone', '| ---', '| shoulder', '| wrist', '| hip', '| ankle', '| all']);
    expect(table[5]).toMatch(/\| 100 % \| \d+\.\d \|$/);
    expect(table[2]).toMatch(/\| 0 % \| \d+\.\d \|$/);
  });

  it('leaves out joints without one', () => {
    expect(turnFrames([frame(1, 1)])).toEqual([]);
  });
});
