// Bare arms and hands with four fingers and a thumb; the model needs them to find wrists.
// Hand coordinates: origin at the wrist, fingers down (-Y), thumb forward (X), the palm towards the body.
import { signOf, SIDES, type Side } from '../motion/skeleton.ts';
import type { Vec3 } from '../motion/rotation.ts';
import { roundCone, union, type Field } from './field.ts';
import { valueNoise } from './noise.ts';
import type { Outfit } from './outfit.ts';
import { blend, boxAround, tint, type Holder, type Part } from './part.ts';
import type { Rig } from './rig.ts';

interface Finger {
  /** Where the knuckle is: forward, and down from the wrist (m). */
  readonly forward: number;
  readonly down: number;
  readonly bones: readonly [number, number, number];
  readonly radius: number;
  readonly spread: number;
  /** Bend at each joint, degrees. */
  readonly curl: number;
}

/** Lengths chosen by eye after the writer's own hand. */
const FINGERS: readonly Finger[] = [
  { forward: 0.028, down: 0.088, bones: [0.04, 0.024, 0.02], radius: 0.0088, spread: 5, curl: 14 },
  { forward: 0.009, down: 0.092, bones: [0.044, 0.028, 0.021], radius: 0.009, spread: 1, curl: 16 },
  { forward: -0.01, down: 0.088, bones: [0.041, 0.026, 0.02], radius: 0.0085, spread: -3, curl: 18 },
  { forward: -0.027, down: 0.08, bones: [0.032, 0.019, 0.018], radius: 0.0075, spread: -8, curl: 20 },
];

function hand(side: Side, at: (p: Vec3) => Vec3): Field {
  // inward: towards the palm side.
  const inward = -signOf(side);
  const cones: Field[] = [];
  const cone = (a: Vec3, b: Vec3, ra: number, rb: number): Field => roundCone(at(a), at(b), ra, rb);
  for (const f of FINGERS) {
    let from: Vec3 = [f.forward, -f.down, 0];
    cones.push(cone([f.forward * 0.55, -0.012, 0], from, 0.0135, f.radius + 0.0025));
    let bent = 0;
    f.bones.forEach((bone, i) => {
      bent += (f.curl * (i === 0 ? 0.7 : 1) * Math.PI) / 180;
      const side2 = (f.spread * Math.PI) / 180;
      const to: Vec3 = [
        from[0] + bone * Math.sin(side2) * Math.cos(bent),
        from[1] - bone * Math.cos(side2) * Math.cos(bent),
        from[2] + inward * bone * Math.sin(bent),
      ];
      cones.push(cone(from, to, f.radius * (1 - 0.07 * i), f.radius * (0.93 - 0.08 * i)));
      from = to;
    });
  }
  const thumb: readonly Vec3[] = [
    [0.014, -0.018, inward * 0.006], [0.036, -0.048, inward * 0.018], [0.048, -0.076, inward * 0.024], [0.05, -0.1, inward * 0.026],
  ];
  const radii = [0.0155, 0.0125, 0.0105, 0.009];
  for (let i = 0; i < 3; i++) {
    cones.push(cone(thumb[i] ?? [0, 0, 0], thumb[i + 1] ?? [0, 0, 0], radii[i] ?? 0.01, radii[i + 1] ?? 0.01));
  }
  cones.push(cone([0.012, -0.03, inward * 0.006], [0.006, -0.075, inward * 0.005], 0.016, 0.013));
  return union(0.006, ...cones);
}

/** One bare arm from under the sleeve to the finger tips. */
export function armPart(rig: Rig, outfit: Outfit, side: Side): Part {
  const g = rig.body.limbGirth;
  const [shoulder, elbow, wrist] = [`${side}Shoulder`, `${side}Elbow`, `${side}Wrist`] as const;
  const at = (p: Vec3): Vec3 => rig.place(wrist, p);
  const upperLength = rig.body.upperArm;
  const foreLength = rig.body.forearm;
  const upper = union(0.02,
    roundCone(rig.place(shoulder, [0, -0.04, 0]), rig.place(shoulder, [0, -upperLength, 0]), 0.046 * g, 0.038 * g),
    roundCone(rig.place(shoulder, [0.01, -0.1, 0]), rig.place(shoulder, [0.008, -0.2, 0]), 0.04 * g, 0.036 * g));
  const fore = union(0.02,
    roundCone(rig.place(elbow, [0, 0, 0]), rig.place(elbow, [0, -foreLength, 0]), 0.0385 * g, 0.0245 * g),
    roundCone(rig.place(elbow, [0.004, -0.05, 0]), rig.place(elbow, [0, -0.13, 0]), 0.04 * g, 0.031 * g));
  const palm = hand(side, at);
  const field = union(0.016, union(0.018, upper, fore), palm);
  const holders: readonly Holder[] = [
    { bone: shoulder, shape: upper }, { bone: elbow, shape: fore }, { bone: wrist, shape: palm },
  ];
  const tips = FINGERS.map((f) => at([f.forward, -f.down - 0.09, 0]));
  const warm = blend(outfit.skin, outfit.lips, 0.14);
  return {
    name: `${side}Arm`, field, cellM: 0.0045, holders, roughness: 0.62,
    bounds: boxAround([rig.place(shoulder, [0, 0, 0]), rig.place(elbow, [0, 0, 0]), at([0.06, -0.1, 0]), ...tips], 0.062),
    colour: (x, y, z) => {
      const inHand = 0.5 - palm(x, y, z) * 30;
      return tint(blend(outfit.skin, warm, inHand), 1 + 0.05 * valueNoise(x * 80, y * 80, z * 80, 11));
    },
  };
}

/** Both arms. */
export const armParts = (rig: Rig, outfit: Outfit): readonly Part[] => SIDES.map((side) => armPart(rig, outfit, side));
