import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  angleBetween, angleOf, conjugate, fromAxisAngle, fromBasis, fromRotationVector, IDENTITY, multiply, negate, power, rotate,
  rotationVector, shortestArc, slerp, twistAngle, type Quat,
} from '../../src/numeric/quaternion.ts';
import { angleBetweenVectors, dot, length, scale, subtract, type Vec3 } from '../../src/numeric/vector3.ts';
import { anyQuat, anyUnitVector, SEEDED } from './arbitrary.ts';
import reference from './data/rotations.json' with { type: 'json' };

/** The reference values carry 15 digits. */
const CLOSE = 1e-12;

function fromXyzw(q: readonly number[]): Quat {
  return [q[3]!, q[0]!, q[1]!, q[2]!];
}

function distance(a: Vec3, b: Vec3): number {
  return length(subtract(a, b));
}

describe('against scipy', () => {
  it.each(reference.matrices)('matrix $name', ({ matrix, quatXyzw }) => {
    const column = (c: number): Vec3 => [matrix[0]![c]!, matrix[1]![c]!, matrix[2]![c]!];
    const q = fromBasis(column(0), column(1), column(2));
    expect(angleBetween(q, fromXyzw(quatXyzw))).toBeLessThan(CLOSE);
    for (const [axis, c] of [[[1, 0, 0], 0], [[0, 1, 0], 1], [[0, 0, 1], 2]] as const) {
      expect(distance(rotate(q, axis), column(c))).toBeLessThan(CLOSE);
    }
  });

  it.each(reference.slerp)('slerp $name', ({ times, quatsXyzw, at, resultXyzw }) => {
    at.forEach((t, i) => {
      let k = 0;
      while (k + 2 < times.length && t > times[k + 1]!) k++;
      const u = (t - times[k]!) / (times[k + 1]! - times[k]!);
      const q = slerp(fromXyzw(quatsXyzw[k]!), fromXyzw(quatsXyzw[k + 1]!), u);
      expect(angleBetween(q, fromXyzw(resultXyzw[i]!))).toBeLessThan(CLOSE);
    });
  });

  it.each(reference.threePointAngles)('three points $name', (c) => {
    const [a, v, b] = [c.a, c.vertex, c.c] as unknown as [Vec3, Vec3, Vec3];
    const deg = (angleBetweenVectors(subtract(v, a), subtract(b, v)) * 180) / Math.PI;
    // the table's own rounding
    expect(Math.abs(deg - c.flexion_deg)).toBeLessThan(1e-6);
  });
});

describe('laws', () => {
  it('no angle from a thing to itself, with either sign, and never NaN', () => {
    fc.assert(fc.property(anyQuat, (q) => {
      // one rounding error of a product, doubled by the half angle
      expect(angleBetween(q, q)).toBeLessThan(1e-15);
      expect(angleBetween(q, negate(q))).toBeLessThan(1e-15);
    }), SEEDED);
  });

  it('holds at and around the identity and the half turn', () => {
    fc.assert(fc.property(anyUnitVector, fc.constantFrom(0, 1e-300, 1e-16, 1e-9, 1e-5), fc.boolean(), (axis, off, near) => {
      const angle = near ? off : Math.PI - off;
      const q = fromAxisAngle(axis, angle);
      // products of unit numbers round at 1e-16; the small angle is kept to that, not to its square root as with acos
      expect(Math.abs(angleOf(q) - angle)).toBeLessThan(1e-15);
      expect(Math.abs(length(rotationVector(q)) - angle)).toBeLessThan(1e-15);
      for (const out of [power(q, 0.5), slerp(IDENTITY, q, 0.3), fromRotationVector(rotationVector(q))]) {
        expect(out.every(Number.isFinite)).toBe(true);
      }
      expect(Math.abs(angleOf(power(q, 0.5)) - angle / 2)).toBeLessThan(1e-15);
    }), SEEDED);
  });

  it('rotation vectors go there and back', () => {
    fc.assert(fc.property(anyQuat, (q) => {
      expect(angleBetween(fromRotationVector(rotationVector(q)), q)).toBeLessThan(1e-14);
    }), SEEDED);
  });

  it('a product turns first by the second factor, then by the first', () => {
    fc.assert(fc.property(anyQuat, anyQuat, anyUnitVector, (a, b, v) => {
      expect(distance(rotate(multiply(a, b), v), rotate(a, rotate(b, v)))).toBeLessThan(1e-14);
      expect(distance(rotate(conjugate(a), rotate(a, v)), v)).toBeLessThan(1e-14);
    }), SEEDED);
  });

  it('turns by the right hand', () => {
    expect(distance(rotate(fromAxisAngle([0, 0, 1], Math.PI / 2), [1, 0, 0]), [0, 1, 0])).toBeLessThan(1e-15);
  });

  it('a basis gives its own turn back, half turns included', () => {
    const halfTurns = fc.constantFrom<Quat>([0, 1, 0, 0], [0, 0, 1, 0], [0, 0, 0, 1], [0, 0.6, 0.8, 0]);
    fc.assert(fc.property(fc.oneof(anyQuat, halfTurns), (q) => {
      const back = fromBasis(rotate(q, [1, 0, 0]), rotate(q, [0, 1, 0]), rotate(q, [0, 0, 1]));
      expect(angleBetween(back, q)).toBeLessThan(1e-14);
    }), SEEDED);
  });

  it('the shortest arc carries one vector onto the other, opposite ones too', () => {
    fc.assert(fc.property(anyUnitVector, anyUnitVector, fc.boolean(), (a, b, opposite) => {
      const to = opposite ? scale(a, -1) : b;
      // within 1e-8 of opposite they are taken as opposite
      expect(distance(rotate(shortestArc(a, to), a), to)).toBeLessThan(2e-8);
    }), SEEDED);
  });

  it('slerp moves at constant speed', () => {
    fc.assert(fc.property(anyQuat, anyQuat, fc.double({ min: 0, max: 1, noNaN: true }), (a, b, u) => {
      expect(Math.abs(angleBetween(a, slerp(a, b, u)) - u * angleBetween(a, b))).toBeLessThan(1e-13);
    }), SEEDED);
  });

  it('twist is the turn about the axis, and swing leaves none of it', () => {
    fc.assert(fc.property(anyQuat, fc.constantFrom(1 as const, 2 as const, 3 as const), (q, axis) => {
      const e: Vec3 = [axis === 1 ? 1 : 0, axis === 2 ? 1 : 0, axis === 3 ? 1 : 0];
      const swing = multiply(q, fromAxisAngle(e, -twistAngle(q, axis)));
      const v = rotationVector(swing);
      expect(Math.abs(dot(v, e))).toBeLessThan(1e-9);
    }), SEEDED);
  });

  it('twist of a turn without any is 0, not NaN', () => {
    expect(twistAngle([0, 1, 0, 0], 3)).toBe(0);
  });
});
