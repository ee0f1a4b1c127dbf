import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { NO_CORRECTIONS } from '../../../src/motion/corrections/corrections.ts';
import { findSlate, slateOf } from '../../../src/motion/corrections/slate.ts';
import { fitUnread } from '../fit/unread.ts';
import { trackFromJson } from '../../../src/pose/trackJson.ts';
import { FAULTS, film, flexionDeg, FRONT, HINGES, stand, STANDING, times, type SyntheticPose } from '../fit/syntheticTake.ts';

const ease = (u: number): number => (1 - Math.cos(Math.PI * Math.min(1, Math.max(0, u)))) / 2;
/** Straight to 1 s, square from 1.5 to 2.2 s, then a curl of both elbows with the arms a little forward. */
const pose = (timeS: number): SyntheticPose => {
  const square = ease((timeS - 1) / 0.5) * (1 - ease((timeS - 2.2) / 0.5));
  const curl = ease((timeS - 3) / 1) * (1 - ease((timeS - 4.5) / 1));
  const arm = { forward: 20 * curl, sideways: 8 + 82 * square, elbow: 5 + 85 * square + 70 * curl };
  return stand({ ...STANDING, arms: [arm, arm] });
};
const GENERATED = new URL('../../../generated/accuracy/', import.meta.url);

describe('the slate pose', { timeout: 60_000 }, () => {
  it('in posed clips: found where it is, nowhere else', ({ skip }) => {
    if (!existsSync(GENERATED)) {
      console.warn('SKIPPED: no posed clips here; npm run accuracy makes them.');
      return skip('no posed clips');
    }
    const wrong: string[] = [];
    let found = 0;
    for (const file of readdirSync(GENERATED).filter((name) => name.endsWith('.track.json') && !name.startsWith('practice-'))) {
      const slate = findSlate(trackFromJson(JSON.parse(readFileSync(new URL(file, GENERATED), 'utf8'))));
      if ((slate !== null) !== file.startsWith('slate')) wrong.push(`${file}: ${JSON.stringify(slate)}`);
      if (slate !== null && file.startsWith('slate')) {
        found += 1;
        // The clips hold straight to 1 s and square from 1.45 to 2.05 s.
        expect(slate.straightToS).toBeLessThan(1.25);
        expect(slate.squareFromS).toBeGreaterThan(1.2);
        expect(slate.squareToS).toBeLessThan(2.4);
      }
    }
    console.info(`slate found in ${found} posed clips; wrong: ${wrong.length}`);
    expect(wrong).toEqual([]);
  });

  it('a person may say where it is, or that there is none', () => {
    const { track } = film(times(3, 30), () => stand(STANDING), FRONT);
    expect(findSlate(track)).toBeNull();
    const given = { kind: 'given', straightFromS: 0.2, straightToS: 1, squareFromS: null, squareToS: null } as const;
    expect(slateOf(track, given)).toMatchObject({ straightFromS: 0.2, given: true });
    expect(slateOf(track, { kind: 'none' })).toBeNull();
  });

  it('given, it brings the elbows closer to the truth', () => {
    const sums = { with: 0, without: 0 };
    for (const seed of [1, 2, 3, 4]) {
      const take = film(times(6, 30), pose, { ...FRONT, azimuthDeg: 20 }, { ...FAULTS, seed, bentM: 0.08 });
      const given = { kind: 'given', straightFromS: 0, straightToS: 1, squareFromS: 1.5, squareToS: 2.2 } as const;
      for (const [name, slate] of [['with', given], ['without', { kind: 'none' }]] as const) {
        const body = fitUnread(take.track, 1, { ...NO_CORRECTIONS, slate });
        for (const hinge of ['leftElbow', 'rightElbow'] as const) {
          for (let t = 80; t < 180; t++) sums[name] += (flexionDeg(body.pointsM, t, ...HINGES[hinge]) - flexionDeg(take.truthM, t, ...HINGES[hinge])) ** 2;
        }
      }
    }
    const rms = (sum: number): number => Math.sqrt(sum / (4 * 2 * 100));
    console.info(`elbows after the slate, RMS over 4 synthetic takes: with it ${rms(sums.with).toFixed(1)}°, without ${rms(sums.without).toFixed(1)}°`);
    expect(sums.with).toBeLessThan(sums.without);
  });
});
