import { describe, expect, it } from 'vitest';
import { NO_CORRECTIONS, type Corrections } from '../../../src/motion/corrections/corrections.ts';
import { unreadFitter } from '../fit/unread.ts';
import type { FittedBody } from '../../../src/motion/fit/fittedBody.ts';
import { film, FRONT, stand, STANDING, times } from '../fit/syntheticTake.ts';
import { pointM } from './take.ts';

/** She rides a slow cart to the side at 0.1 m/s, standing still on it: slow enough to be taken for standing on the floor. */
const take = film(times(4, 30), (timeS) => {
  const pose = stand(STANDING);
  return { ...pose, root: [0, pose.root[1], 0.1 * timeS] };
}, FRONT);
const fitter = unreadFitter();
const fit = (change: Partial<Corrections>): FittedBody => fitter.fit(take.track, 1, { ...NO_CORRECTIONS, slate: { kind: 'none' }, ...change });
const base = fit({});

/** How far the left ankle travels across the picture in the stage between two frames, metres. */
function travelM(body: FittedBody, from: number, to: number): number {
  const z = (t: number): number => body.rootM[t * 3 + 2]! + pointM(body, t, 'leftAnkle')[2];
  return Math.abs(z(to) - z(from));
}

describe('a person’s word about feet', { timeout: 60_000 }, () => {
  it('that they don’t stand lets the root follow the picture', () => {
    expect([...base.contacts].filter((c) => c === 1).length).toBeGreaterThan(150);
    const body = fit({ contacts: [{ foot: 'left', fromS: 1, toS: 3, stands: false }, { foot: 'right', fromS: 1, toS: 3, stands: false }] });
    for (let t = 31; t < 90; t++) expect([body.contacts[t * 2], body.contacts[t * 2 + 1]]).toEqual([0, 0]);
    expect(travelM(base, 35, 85)).toBeLessThan(0.05);
    expect(travelM(body, 35, 85)).toBeGreaterThan(0.12);
    expect(travelM(body, 35, 85)).toBeLessThan(0.21);
  });

  it('that a foot stands keeps it where it is', () => {
    const free = { contacts: [{ foot: 'left', fromS: 0, toS: 4, stands: false }, { foot: 'right', fromS: 0, toS: 4, stands: false }] } as const;
    const body = fit({ contacts: [...free.contacts, { foot: 'left', fromS: 2, toS: 2.5, stands: true }] });
    expect(travelM(fit(free), 60, 75)).toBeGreaterThan(0.03);
    expect(travelM(body, 60, 75)).toBeLessThan(0.01);
    expect([body.contacts[60 * 2], body.contacts[50 * 2]]).toEqual([1, 0]);
  });

  it('outside the take says nothing', () => {
    expect(fit({ contacts: [{ foot: 'left', fromS: 20, toS: 30, stands: false }] }).pointsM).toEqual(base.pointsM);
  });
});
