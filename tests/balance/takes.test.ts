/** Balance of whole takes: the demo's own clip on one leg, and a real person who never falls. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PROJECT_FOLDER } from '../../scripts/serve/projectFolder.ts';
import { clipBalance } from '../../scripts/balance/clipBalance.ts';
import { figureArmature, marginOfTruth } from '../../scripts/balance/figureArmature.ts';
import { readTruth } from '../../scripts/accuracy/truthFile.ts';
import { VERDICTS } from '../../src/balance/balance.ts';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { makePlan } from '../../src/plan/makePlan.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { EXAMPLES } from '../../src/puppet/examples/all.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { PUBLISHED_THERE, publishedTrack } from '../motion/fit/publishedTrack.ts';

if (!PUBLISHED_THERE) console.warn('SKIPPED: balance on real footage, because ../shared/footage is not there.');

const FALLS = VERDICTS.indexOf('falls');

describe('the clip on one leg', { timeout: 30_000 }, () => {
  const truth = readTruth(join(PROJECT_FOLDER, 'reference-clips/one-leg-reach.truth.json'));
  const { track: json } = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'src/app/demo/one-leg-reach.track.json'), 'utf8')) as { track: unknown };
  const track = trackFromJson(json);
  const body = fitTake(track, 1);

  it('the exact pose has the margin that is added up by hand from the truth; the measured one lies within twice its error of it, nine times of ten', () => {
    const document = figureArmature(truth);
    const armature = completeArmature(document);
    const { plan, measured, exact } = clipBalance(truth, track, body, document);
    let looked = 0;
    let near = 0;
    for (let s = 0; s < plan.stepCount; s++) {
      const frame = truth.timesS.findIndex((t) => Math.abs(t - plan.sourceTimeS[s]!) < 1e-4);
      if (frame < 0) continue;
      const byHand = marginOfTruth(truth, frame, armature);
      // where a foot lands or leaves, its sole is let down to the floor
      expect(Math.abs(exact.standMm[s]! - byHand)).toBeLessThan(0.1);
      if ([0, 1].some((k) => measured.touching[s * 2 + k] !== exact.touching[s * 2 + k])) continue;
      looked += 1;
      if (Math.abs(measured.standMm[s]! - byHand) < 2 * measured.marginSigmaMm[s]!) near += 1;
    }
    expect(looked).toBeGreaterThan(20);
    expect(near / looked).toBeGreaterThan(0.9);
  });

  it('has one span on the left leg, is marginal there and asks for its tie-down; no plan of it says NaN without saying why', () => {
    const { balance } = makePlan(track, MARLA, DEFAULT_SETTINGS, { body });
    expect(balance.oneLeg.map(({ foot }) => foot)).toContain('leftFoot');
    const long = balance.oneLeg.find(({ fromStep, toStep }) => toStep - fromStep > 20)!;
    expect(VERDICTS[balance.standVerdict[long.worstStep]!]).toMatch(/marginal|falls/);
    expect(balance.hardware.some(({ foot, holdN }) => foot === 'leftFoot' && holdN > 0 && holdN < 10)).toBe(true);
    expect(balance.flights).toEqual([]);
    // 2 of the 32 steps on one leg at most: she stands
    expect([...balance.standVerdict].filter((verdict) => verdict === FALLS).length).toBeLessThanOrEqual(2);
  });

  it('every example puppet is judged by it, and each number comes with its verdict', () => {
    for (const { armature } of EXAMPLES) {
      const { balance, stepCount } = makePlan(track, armature, DEFAULT_SETTINGS, { body });
      for (let s = 0; s < stepCount; s++) {
        const verdict = VERDICTS[balance.standVerdict[s]!]!;
        const unknown = verdict === 'not known' || verdict === 'in the air';
        for (const numbers of [balance.standMm, balance.standShare, balance.moveMm, balance.moveShare, balance.marginSigmaMm, balance.moveSigmaMm, balance.tippingNmm]) {
          expect(Number.isNaN(numbers[s]!), `${armature.name} ${s} ${verdict}`).toBe(unknown);
        }
      }
      if ([...balance.standVerdict].includes(VERDICTS.indexOf('not known'))) expect(balance.notes.length).toBeGreaterThan(0);
    }
  });
});

describe.skipIf(!PUBLISHED_THERE)('a real person who squats and stands', { timeout: 30_000 }, () => {
  it('never falls: no step says so, and most hold', () => {
    const track = publishedTrack();
    const { balance, stepCount } = makePlan(track, MARLA, DEFAULT_SETTINGS, { body: fitTake(track, 1) });
    const counts = VERDICTS.map((_, index) => [...balance.standVerdict].filter((verdict) => verdict === index).length);
    console.info(`Real squats: ${VERDICTS.map((name, k) => `${counts[k]} ${name}`).join(', ')} of ${stepCount} steps.`);
    expect(counts[FALLS]).toBe(0);
    expect(counts[VERDICTS.indexOf('holds')]!).toBeGreaterThan(stepCount / 2);
    expect([...balance.moveVerdict].filter((verdict) => verdict === FALLS).length).toBe(0);
  });
});
