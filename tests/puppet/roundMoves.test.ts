import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { angleBetween, angleOf, fromRotationVector, multiply, normalise, readQuat, type Quat } from '../../src/numeric/quaternion.ts';
import { length, readVec3, type Vec3 } from '../../src/numeric/vector3.ts';
import { gridPhase, roundAxis, roundBall } from '../../src/puppet/roundMoves.ts';
import { SEEDED } from '../numeric/arbitrary.ts';

const anySmallest = fc.double({ min: 0.05, max: 10, noNaN: true });
const anyPhase = fc.integer({ min: 0, max: 60 }).map(gridPhase);
/** Wandering curves: sums of steps from still to wild. */
const anyCurve = fc.tuple(fc.double({ min: 0.001, max: 30, noNaN: true }), fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 2, maxLength: 200 }))
  .map(([size, steps]) => {
    let at = 0;
    return Float64Array.from(steps, (step) => (at += step * size));
  });

describe('rounding of one axis', () => {
  it('stays within half a smallest move of the exact curve at every step, however long the curve', () => {
    fc.assert(fc.property(anyCurve, anySmallest, anyPhase, (targets, smallest, phase) => {
      roundAxis(targets, smallest, 0, phase).forEach((ordered, s) => {
        expect(Math.abs(ordered - targets[s]!)).toBeLessThanOrEqual(smallest / 2 + 1e-8);
      });
    }), SEEDED);
  });

  it('with slack leaves that bound only for pokes that come back, and never by more than the slack', () => {
    fc.assert(fc.property(anyCurve, anySmallest, anyPhase, fc.double({ min: 0, max: 1, noNaN: true }), (targets, smallest, phase, share) => {
      const slack = share * smallest;
      const ordered = roundAxis(targets, smallest, slack, phase);
      ordered.forEach((value, s) => {
        const error = Math.abs(value - targets[s]!);
        expect(error).toBeLessThanOrEqual(smallest / 2 + slack + 1e-8);
        if (error <= smallest / 2 + 1e-8) return;
        const back = targets.slice(s, s + 9).findIndex((later) => Math.abs(value - later) <= smallest / 2);
        expect(back).toBeGreaterThan(0);
      });
      // and at the end the pose is that of the plan
      expect(Math.abs(ordered.at(-1)! - targets.at(-1)!)).toBeLessThanOrEqual(smallest / 2 + 1e-8);
    }), SEEDED);
  });

  it('moves in whole smallest moves, and the moves of any span are the difference of its ends', () => {
    fc.assert(fc.property(anyCurve, anySmallest, anyPhase, fc.nat(), fc.nat(), (targets, smallest, phase, a, b) => {
      const ordered = roundAxis(targets, smallest, 0.2 * smallest, phase);
      const moves = ordered.map((value, s) => (s === 0 ? 0 : value - ordered[s - 1]!));
      for (const move of moves) expect(Math.abs(move / smallest - Math.round(move / smallest))).toBeLessThan(1e-6);
      const [from, to] = [a % targets.length, b % targets.length].sort((x, y) => x - y) as [number, number];
      const sum = moves.slice(from + 1, to + 1).reduce((total, move) => total + move, 0);
      expect(sum).toBeCloseTo(ordered[to]! - ordered[from]!, 8);
    }), SEEDED);
  });

  it('never orders past a stop, and stays within half a move of curves that keep it too', () => {
    fc.assert(fc.property(anyCurve, anySmallest, anyPhase, (targets, smallest, phase) => {
      const kept = targets.map((v) => Math.min(7.3, Math.max(-4.1, v)));
      roundAxis(kept, smallest, 0, phase, [-4.1, 7.3]).forEach((ordered, s) => {
        expect(ordered).toBeGreaterThanOrEqual(-4.1);
        expect(ordered).toBeLessThanOrEqual(7.3);
        expect(Math.abs(ordered - kept[s]!)).toBeLessThanOrEqual(smallest / 2 + 1e-8);
      });
    }), SEEDED);
  });

  it('does not chatter: jitter of a tenth about the middle between two stands, with slack, moves once at most', () => {
    const jitter = Float64Array.from({ length: 200 }, (_, s) => 0.5 + 0.1 * Math.sin(s * 2.1));
    const count = (slack: number): number => {
      const ordered = roundAxis(jitter, 1, slack, 0);
      return ordered.filter((value, s) => s > 0 && value !== ordered[s - 1]).length;
    };
    expect(count(0)).toBeGreaterThan(50);
    expect(count(0.2)).toBeLessThanOrEqual(1);
  });

  it('a slow drift becomes one move every few steps, at different steps in neighbouring joints', () => {
    const drift = Float64Array.from({ length: 100 }, (_, s) => 0.1 * s);
    const movesAt = (p: number): number[] => {
      const ordered = roundAxis(drift, 1, 0.2, gridPhase(p));
      return [...ordered].flatMap((value, s) => (s > 0 && value !== ordered[s - 1] ? [s] : []));
    };
    for (let p = 0; p < 18; p++) {
      const [own, next] = [movesAt(p), movesAt(p + 1)];
      expect(own.length).toBeGreaterThanOrEqual(9);
      expect(own.filter((s) => next.includes(s))).toEqual([]);
    }
  });

  it('a joint that does nothing is set up as it is; gaps order nothing and forget nothing', () => {
    expect([...roundAxis([3.3, 3.3, 3.3], 1, 0, 0.4)]).toEqual([3.3, 3.3, 3.3]);
    const ordered = roundAxis([0, 5, Number.NaN, 7.2], 1, 0, 0);
    expect([...ordered]).toEqual([0, 5, Number.NaN, 7]);
  });
});

const anyVector = fc.tuple(...[0, 1, 2].map(() => fc.double({ min: -1, max: 1, noNaN: true }))) as fc.Arbitrary<[number, number, number]>;
const anyTumble = fc.tuple(fc.double({ min: 0.0001, max: 0.5, noNaN: true }), fc.array(anyVector, { minLength: 2, maxLength: 120 })).map(([size, steps]) => {
  let q: Quat = [1, 0, 0, 0];
  return steps.map(([x, y, z]) => (q = normalise(multiply(fromRotationVector([x * size, y * size, z * size]), q))));
});

/** One ball on its own, as tuples. */
function roundAlone(targets: readonly Quat[], smallest: number, slack: number, phase: number): { ordered: readonly Quat[]; moves: readonly Vec3[] } {
  const ordered = new Float64Array(targets.length * 4);
  const moves = new Float64Array(targets.length * 3);
  roundBall(Float64Array.from(targets.flat()), { joint: 0, width: 1, count: targets.length }, smallest, slack, phase, ordered, moves);
  return { ordered: targets.map((_, s) => readQuat(ordered, s)), moves: targets.map((_, s) => readVec3(moves, s)) };
}

describe('rounding of a ball', () => {
  it('keeps the whole angle within half a smallest move; moves are whole, and played back give the ordered poses', () => {
    fc.assert(fc.property(anyTumble, fc.double({ min: 0.002, max: 0.2, noNaN: true }), anyPhase, (targets, smallest, phase) => {
      const { ordered, moves } = roundAlone(targets, smallest, 0, phase);
      let q = ordered[0]!;
      ordered.forEach((value, s) => {
        expect(angleBetween(value!, targets[s]!)).toBeLessThanOrEqual(smallest / 2 + 1e-7);
        const size = length(moves[s]!) / smallest;
        expect(Math.abs(size - Math.round(size))).toBeLessThan(1e-6);
        q = multiply(fromRotationVector(moves[s]!), q);
        expect(angleBetween(q, value!)).toBeLessThan(1e-10);
      });
    }), SEEDED);
  });

  it('a jitter within the slack moves nothing to and fro', () => {
    const shake = Array.from({ length: 100 }, (_, s): Quat => fromRotationVector([0.01 + 0.002 * Math.sin(s * 2.1), 0, 0.001 * Math.cos(s * 1.3)]));
    const { ordered } = roundAlone([[1, 0, 0, 0], ...shake], 0.02, 0.006, 0);
    expect(ordered.filter((q, s) => s > 0 && angleOf(multiply(q!, [ordered[s - 1]![0], -ordered[s - 1]![1], -ordered[s - 1]![2], -ordered[s - 1]![3]])) > 1e-9).length).toBeLessThanOrEqual(1);
  });
});
