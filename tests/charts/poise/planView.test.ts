/** The set from above, against places worked out by hand: front below, puppet's right at the left. */
import { describe, expect, it } from 'vitest';
import { unknownBalance } from '../../../src/balance/unknownBalance.ts';
import type { Balance } from '../../../src/balance/balance.ts';
import { boxAround, meet } from '../../../src/charts/poise/labelPlaces.ts';
import { planPicture, type PlanPicture, type PlanViewInput, type SoleSeen, unseenWords } from '../../../src/charts/poise/planView.ts';

const SIZE = { widthPx: 400, heightPx: 300, pxPerMm: 3, centreMm: [0, 0] as const };
/** 20 mm long, 10 mm wide, 30 mm apart. */
const sole = (name: string, z: number, state: SoleSeen['state'] = 'stands'): SoleSeen => ({ name, state, outlineMm: [10, z - 5, 10, z + 5, -10, z + 5, -10, z - 5] });
const SOLES = [sole('leftFoot', -15), sole('rightFoot', 15)];

function balanceAt(x: number, z: number, standMm = Number.NaN, towardDeg = Number.NaN): Balance {
  const balance = unknownBalance(1, ['leftFoot', 'rightFoot']);
  balance.massMm.set([x, 150, z]);
  balance.massSigmaMm.set([4, 2]);
  balance.movedMm.set([x, z]);
  balance.standMm[0] = standMm;
  balance.towardDeg[0] = towardDeg;
  return balance;
}

const picture = (some: Partial<PlanViewInput> = {}): PlanPicture =>
  planPicture({ balance: balanceAt(0, 0), step: 0, soles: SOLES, pads: [], camera: { azimuthDeg: 0, elevationDeg: 0 }, other: null, ...SIZE, ...some });
const pathOf = ({ paths }: PlanPicture, name: string): string => paths.find((path) => path.name === name)!.d;
const textOf = ({ texts }: PlanPicture, key: string): PlanPicture['texts'][number] => texts.find((text) => text.key === key)!;

describe('places', () => {
  it('have X (toward the front) down and Z (to the puppet’s right) to the left', () => {
    expect(pathOf(picture(), 'mass')).toBe('M191,150h18M200,141v18');
    expect(pathOf(picture({ balance: balanceAt(10, 20) }), 'mass')).toBe('M131,180h18M140,171v18');
    expect(textOf(picture(), 'leftFoot')).toMatchObject({ x: 245, y: 154, text: 'L' });
    expect(textOf(picture(), 'rightFoot')).toMatchObject({ x: 155, y: 154, text: 'R' });
  });

  it('of the edge are the margin away, the way it would go over', () => {
    // 5 mm inside, over the front edge: 15 px further down
    expect(pathOf(picture({ balance: balanceAt(0, 0, 5, 0) }), 'mass-edge')).toBe('M200.0,150.0L200.0,165.0');
    // 2 mm outside: the edge is behind
    expect(pathOf(picture({ balance: balanceAt(0, 0, -2, 90) }), 'mass-edge')).toBe('M200.0,150.0L206.0,150.0');
  });

  it('of the error are as wide as its sigma across and along', () => {
    expect(pathOf(picture(), 'mass-sigma')).toBe('M194,150a6,12 0 1,0 12,0a6,12 0 1,0 -12,0');
  });

  it('never say NaN where nothing is known', () => {
    const { paths, texts } = picture({ balance: unknownBalance(1, []), soles: [] });
    for (const { d } of paths) expect(d).not.toContain('NaN');
    expect(texts.map(({ key }) => key)).toEqual(['scale', 'front']);
  });
});

describe('what stands and what does not', () => {
  it('is told by paths of their own, with a sign at the letter', () => {
    const seen = picture({ soles: [sole('leftFoot', -15, 'lifted'), sole('rightFoot', 15, 'unseen')], pads: [{ name: 'leftHand', atMm: [0, -40], state: 'stands' }] });
    expect(textOf(seen, 'leftFoot').text).toBe('L up');
    expect(textOf(seen, 'rightFoot').text).toBe('R ?');
    expect(textOf(seen, 'leftHand').text).toBe('left hand');
    expect(pathOf(seen, 'sole sole-lifted')).not.toBe('');
    expect(pathOf(seen, 'sole sole-unseen')).not.toBe('');
    expect(pathOf(seen, 'sole sole-stands')).toBe('M313,143h14v14h-14z');
    expect(pathOf(seen, 'peg')).toBe('');
    expect(pathOf(picture({ soles: [sole('leftFoot', -15, 'tied')] }), 'peg')).not.toBe('');
  });

  it('is a sentence where it was not seen, with a way out, and nothing where all is known', () => {
    expect(unseenWords(SOLES, [])).toBe('');
    expect(unseenWords([sole('leftFoot', 0, 'unseen')], [])).toMatch(/^The left foot is not seen .* Say under Touches whether it stands\.$/);
    expect(unseenWords([sole('leftFoot', 0, 'unseen'), sole('rightFoot', 0, 'unseen')], [{ name: 'leftHand', atMm: [0, 0], state: 'unseen' }])).toMatch(/^The left foot, the right foot and the left hand are not seen/);
  });
});

describe('words', () => {
  it('of the margin touch no letter, no other words and stay in the picture, wherever the centre of mass is', () => {
    const wrong: string[] = [];
    for (let x = -12; x <= 12; x += 2) for (let z = -24; z <= 24; z += 2) for (const toward of [0, 90, 180, 270]) {
      const { texts } = picture({ balance: balanceAt(x, z, 4.5, toward), other: { atMm: [x + 2, z], word: 'before' } });
      const boxes = texts.map((text) => ({ key: text.key, ...boxAround(text) }));
      for (const box of boxes) {
        if (box.left < 0 || box.right > SIZE.widthPx || box.bottom > SIZE.heightPx) wrong.push(`${box.key} out at ${x}, ${z}, ${toward}`);
        for (const other of boxes) if (other.key !== box.key && meet(box, other)) wrong.push(`${box.key} on ${other.key} at ${x}, ${z}, ${toward}`);
      }
    }
    expect(wrong).toEqual([]);
  });

  it('say where the front is and where the taking camera stands', () => {
    expect(textOf(picture(), 'front').text).toBe('front of the set, camera');
    const side = picture({ camera: { azimuthDeg: 90, elevationDeg: 0 } });
    expect(textOf(side, 'front').text).toBe('front of the set ↓');
    // at the puppet's right: at the left border
    expect(textOf(side, 'camera')).toMatchObject({ anchor: 'start' });
    expect(textOf(side, 'camera').x).toBeLessThan(30);
    expect(textOf(picture({ camera: { azimuthDeg: -90, elevationDeg: 0 } }), 'camera').x).toBeGreaterThan(370);
    expect(textOf(picture({ camera: { azimuthDeg: 0, elevationDeg: 85 } }), 'front').text).toContain('camera above');
  });

  it('for the camera keep off those for the front, from whichever side it looks', () => {
    for (let azimuthDeg = -180; azimuthDeg <= 180; azimuthDeg += 5) {
      const { texts } = picture({ camera: { azimuthDeg, elevationDeg: 10 } });
      const [front, camera] = ['front', 'camera'].map((key) => texts.find((text) => text.key === key));
      if (front === undefined || camera === undefined) continue;
      expect(meet(boxAround(front), boxAround(camera)), `at ${azimuthDeg}°`).toBe(false);
    }
  });
});

it('the other pose has its centre of mass as a second cross with its word', () => {
  const seen = picture({ other: { atMm: [0, 10], word: 'after' } });
  expect(pathOf(seen, 'mass-other')).toBe('M164,144l12,12M164,156l12,-12');
  expect(textOf(seen, 'other').text).toBe('after');
  expect(pathOf(picture(), 'mass-other')).toBe('');
});

describe('puppets that are not built as people', () => {
  it('have their soles called by side and name where one side has several', () => {
    const { texts } = picture({ soles: [sole('leftPaw', -15), sole('rightPaw', 15), sole('leftHindPaw', -40), sole('stump', 40)] });
    expect(['leftPaw', 'rightPaw', 'leftHindPaw', 'stump'].map((key) => texts.find((text) => text.key === key)!.text)).toEqual(['L paw', 'R', 'L hind paw', 'stump']);
  });

  it('have a sentence where there is no sole, and no word about a foot where nothing was judged', () => {
    expect(unseenWords([], [])).toMatch(/no sole/);
    expect(unseenWords([], [], false)).toBe('There is no pose at this step.');
    expect(unseenWords([sole('leftFoot', 0, 'unknown')], [])).toBe('');
    expect(textOf(picture({ soles: [sole('leftFoot', 0, 'unknown')] }), 'leftFoot').text).toBe('L');
  });
});
