import { describe, expect, it } from 'vitest';
import { angleErrors } from '../../scripts/calibrate/angleErrors.ts';
import { coverage, coverageTable, rmsDeg, turnRmsDeg, unsureFacts } from '../../scripts/calibrate/coverage.ts';
import type { JointFrame } from '../../scripts/calibrate/samples.ts';
import { readTruth } from '../../scripts/accuracy/truthFile.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { ERROR_CLASSES } from '../../src/motion/trust/errorClasses.ts';
import { faultlessTrack } from '../accuracy/faultlessTrack.ts';
import { fileURLToPath } from 'node:url';

const frame = (deg: number, errorDeg: number, rest: Partial<JointFrame> = {}): JointFrame => ({
  clip: 0, errorClass: 0, deg: [deg], turnDeg: Number.NaN, x: new Float64Array(0), errorDeg, unsure: 0, bridged: false, ...rest,
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
    expect([rmsDeg([]), turnRmsDeg([frame(1, 1)])]).toEqual([Number.NaN, Number.NaN]);
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
