import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromEuler, SINGULAR_ZONE_RAD, toEuler, type EulerOrder } from '../../src/numeric/euler.ts';
import {
  angleBetween, angleOf, conjugate, fromAxisAngle, fromBasis, multiply, negate, rotate, rotationVector, type Quat,
} from '../../src/numeric/quaternion.ts';
import { swingTwist } from '../../src/numeric/swingTwist.ts';
import { angleBetweenVectors, cross, dot, subtract, unit, type Vec3 } from '../../src/numeric/vector3.ts';
import { anyQuat, anyUnitVector, SEEDED } from './arbitrary.ts';
import reference from './data/euler.json' with { type: 'json' };

const DEG = Math.PI / 180;
const ORDERS: readonly EulerOrder[] = [
  'XYZ', 'XZY', 'YXZ', 'YZX', 'ZXY', 'ZYX', 'XYX', 'XZX', 'YXY', 'YZY', 'ZXZ', 'ZYZ',
];
const [joint, leg] = reference.frames;

/** Degrees up to whole turns. */
function sameDeg(a: readonly number[], b: readonly number[], within: number): void {
  expect(a.length).toBe(b.length);
  a.forEach((value, k) => {
    const off = value - b[k]!;
    expect(Math.abs(off - 360 * Math.round(off / 360))).toBeLessThan(within);
  });
}

function inDeg(q: Quat, order: EulerOrder, branch?: 'upper' | 'lower'): number[] {
  return toEuler(q, order, branch).angles.map((a) => a / DEG);
}

function fromXyzw(q: readonly number[]): Quat {
  return [q[3]!, q[0]!, q[1]!, q[2]!];
}

function fromRows(rows: readonly (readonly number[])[]): Quat {
  const column = (c: number): Vec3 => [rows[0]![c]!, rows[1]![c]!, rows[2]![c]!];
  return fromBasis(column(0), column(1), column(2));
}

describe('three angles, against scipy and ISB', () => {
  const cases = reference.cases.flatMap((c) => c.orders.map((o) => ({ name: c.name, quat: fromXyzw(c.quatXyzw), ...o })));

  /*
   * The quaternions carry 15 decimals, 1e-15. At a singularity the reference sits a few 1e-9 off it or on it, and an angle
   * there answers with the square root; 0.1° from one it answers with 1/sin(0.1°) = 573 times, 3e-11°.
   */
  it.each(cases)('$name, $order', ({ quat, order, deg, isbDeg, atSingularity }) => {
    for (const q of [quat, negate(quat)]) {
      sameDeg(inDeg(q, order as EulerOrder), deg, atSingularity ? 2e-6 : 1e-10);
      if (isbDeg !== null) sameDeg(inDeg(q, order as EulerOrder, 'lower'), isbDeg, 1e-10);
      if (atSingularity) expect(toEuler(q, order as EulerOrder).singular).toBe(true);
    }
  });

  it.each(reference.cases.filter((c) => c.build.length === 2 && Array.isArray(c.build[1])))('builds $name', ({ build, quatXyzw }) => {
    const [order, deg] = build as [EulerOrder, Vec3];
    const q = fromEuler(order, [deg[0] * DEG, deg[1] * DEG, deg[2] * DEG]);
    expect(angleBetween(q, fromXyzw(quatXyzw))).toBeLessThan(5e-15);
  });

  it('does not mistake fixed axes for turning ones', () => {
    const hip = reference.cases.find((c) => c.extrinsicZxyDeg !== undefined && c.name.startsWith('hip'))!;
    const fixed = hip.extrinsicZxyDeg!;
    // fixed axes z, x, y are turning axes Y, X, Z read backward
    sameDeg(inDeg(fromXyzw(hip.quatXyzw), 'YXZ').reverse(), fixed, 1e-10);
    expect(Math.abs(inDeg(fromXyzw(hip.quatXyzw), 'ZXY')[0]! - fixed[0]!)).toBeGreaterThan(2);
  });

  it('a joint is the proximal frame reversed, then the distal one', () => {
    const proximal = fromRows(joint!.R_proximal!);
    const distal = fromRows(joint!.R_distal!);
    sameDeg(inDeg(multiply(conjugate(proximal), distal), 'ZXY'), joint!.ZXY_deg!, 1e-10);
    // the reference gives ten decimals of the wrong product
    sameDeg(inDeg(multiply(distal, conjugate(proximal)), 'ZXY'), joint!.wrong_order_R_distal_R_proximal_T_ZXY_deg!, 1e-9);
  });

  it('hip and knee from the landmarks of a leg', () => {
    const at = (name: string): Vec3 => (leg as unknown as Record<string, Vec3>)[name]!;
    const frame = (proximal: Vec3, distal: Vec3, lateral: Vec3, medial: Vec3): Quat => {
      const y = unit(subtract(proximal, distal))!;
      const x = unit(cross(y, subtract(lateral, medial)))!;
      return fromBasis(x, y, cross(x, y));
    };
    const thigh = frame(at('hip'), at('knee'), at('lat_epicondyle'), at('med_epicondyle'));
    const shank = frame(at('knee'), at('ankle'), at('lat_malleolus'), at('med_malleolus'));
    sameDeg(inDeg(thigh, 'ZXY'), leg!.hip_ZXY_deg!, 1e-9);
    sameDeg(inDeg(multiply(conjugate(thigh), shank), 'ZXY'), leg!.knee_ZXY_deg!, 1e-9);
    const flexion = angleBetweenVectors(subtract(at('knee'), at('hip')), subtract(at('ankle'), at('knee')));
    sameDeg([flexion / DEG], [leg!.knee_flexion_180_minus_included_deg!], 1e-9);
  });
});

describe('three angles, laws', () => {
  const anyOrder = fc.constantFrom(...ORDERS);
  const anyBranch = fc.constantFrom('upper' as const, 'lower' as const);

  it('there and back is the same turn, near and on singularities too', () => {
    const near = fc.constantFrom(0, 1e-12, 1e-7, 1e-4, Math.PI / 2, Math.PI / 2 - 1e-9, Math.PI, -Math.PI / 2);
    const anyTurn = fc.oneof(anyQuat, fc.tuple(anyOrder, near, near, near).map(([o, a, b, c]) => fromEuler(o, [a, b, c])));
    fc.assert(fc.property(anyTurn, anyOrder, anyBranch, (q, order, branch) => {
      const { angles } = toEuler(q, order, branch);
      expect(angles.every(Number.isFinite)).toBe(true);
      // within 1e-7 of a singularity the small rest is left to the angle that is set to 0
      expect(angleBetween(fromEuler(order, angles), q)).toBeLessThan(3e-7);
    }), SEEDED);
  });

  it('angles within their ranges come back as they were', () => {
    const turn = fc.double({ min: -3.1, max: 3.1, noNaN: true });
    const inside = fc.double({ min: 0.01, max: 0.99, noNaN: true });
    fc.assert(fc.property(anyOrder, anyBranch, turn, inside, turn, (order, branch, a, u, c) => {
      const proper = order[0] === order[2];
      let b = u * Math.PI;
      if (!proper) b -= Math.PI / 2;
      if (branch === 'lower') b = proper ? -b : b + Math.PI;
      const got = toEuler(fromEuler(order, [a, b, c]), order, branch);
      // 0.01·180° from a singularity an error grows by 1/sin(1.8°) = 32
      sameDeg(got.angles.map((x) => x / DEG), [a / DEG, b / DEG, c / DEG], 1e-11);
      expect(got.singular).toBe(Math.min(u, 1 - u) * Math.PI < SINGULAR_ZONE_RAD);
    }), SEEDED);
  });
});

describe('swing and twist', () => {
  it('swing · twist is the turn, and the swing has none of the axis', () => {
    fc.assert(fc.property(anyQuat, anyUnitVector, (q, axis) => {
      const { swing, twist, twistRad, swingRad } = swingTwist(q, axis);
      expect(angleBetween(multiply(swing, twist), q)).toBeLessThan(1e-14);
      expect(Math.abs(angleOf(twist) - Math.abs(twistRad))).toBeLessThan(1e-14);
      // rounding of the axis' length, magnified where the swing is near half a turn
      expect(Math.abs(dot(rotationVector(swing), axis))).toBeLessThan(1e-12 / Math.max(1e-3, Math.PI - swingRad));
      expect(Math.abs(angleBetweenVectors(axis, rotate(q, axis)) - swingRad)).toBeLessThan(1e-7);
      expect(Math.abs(angleOf(swing) - swingRad)).toBeLessThan(1e-12);
    }), SEEDED);
  });

  it('takes a pure twist and a pure swing apart', () => {
    fc.assert(fc.property(anyUnitVector, fc.double({ min: -3.1, max: 3.1, noNaN: true }), (axis, angle) => {
      const { swingRad, twistRad } = swingTwist(fromAxisAngle(axis, angle), axis);
      // a unit vector is one long to 1e-16, and its sine's square root of that is 1e-8
      expect(swingRad).toBeLessThan(5e-8);
      expect(Math.abs(twistRad - angle)).toBeLessThan(1e-14);
      expect(swingTwist(negate(fromAxisAngle(axis, angle)), axis).twistRad).toBeCloseTo(twistRad, 14);
    }), SEEDED);
  });

  it('says where no twist is defined, and gives none', () => {
    const { twistRad, singular, swing } = swingTwist([0, 1, 0, 0], [0, 0, 1]);
    expect(twistRad).toBe(0);
    expect(singular).toBe(true);
    expect(swing.every(Number.isFinite)).toBe(true);
    expect(swingTwist(fromAxisAngle([1, 0, 0], 2.9), [0, 1, 0]).singular).toBe(false);
    expect(swingTwist(fromAxisAngle([1, 0, 0], 3), [0, 1, 0]).singular).toBe(true);
  });
});
