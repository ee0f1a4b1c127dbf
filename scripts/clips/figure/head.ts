// The head: face, ears, neck. The pose model looks at faces, so sockets, nose, lips and lids are modelled.
// Coordinates are of the head segment: origin at the head joint (height of the nose's base), X forward, Y up, Z right.
import type { Vec3 } from '../motion/rotation.ts';
import { behind, carve, common, ellipsoid, roundCone, sphere, union, type Field } from './field.ts';
import { valueNoise } from './noise.ts';
import type { Outfit } from './outfit.ts';
import { blend, boxAround, tint, type Colour, type Part } from './part.ts';
import type { Rig } from './rig.ts';

const BOTH: readonly (1 | -1)[] = [1, -1];
export const EYE: Vec3 = [0.079, 0.045, 0.031];
export const EYE_RADIUS = 0.0125;

/** Places a head-local point and scales with the head. */
export type HeadPoint = (x: number, y: number, z: number) => Vec3;
export const headPoint = (rig: Rig): HeadPoint => (x, y, z) => {
  const s = rig.body.headSize;
  return rig.place('head', [x * s, y * s, z * s]);
};

/** The skull without features; hair and cap are built on it. */
export function skull(rig: Rig): Field {
  const p = headPoint(rig);
  const s = rig.body.headSize;
  return union(0.03 * s,
    ellipsoid(p(-0.002, 0.07, 0), [0.096 * s, 0.086 * s, 0.075 * s]),
    ellipsoid(p(0.032, 0.0, 0), [0.062 * s, 0.07 * s, 0.06 * s]));
}

function lids(p: HeadPoint, s: number): Field {
  const made = BOTH.map((side) => {
    const at = p(EYE[0], EYE[1], side * EYE[2]);
    const shell = sphere(at, (EYE_RADIUS + 0.0016) * s);
    const upper = common(0.001, shell, behind(p(EYE[0] + 0.01, EYE[1] + 0.0018, side * EYE[2]), [0.25, -1, 0]));
    const lower = common(0.001, shell, behind(p(EYE[0] + 0.01, EYE[1] - 0.0046, side * EYE[2]), [0.15, 1, 0]));
    return union(0.001, upper, lower);
  });
  return union(0.001, ...made);
}

function face(rig: Rig): Field {
  const p = headPoint(rig);
  const s = rig.body.headSize;
  const pair = (make: (side: 1 | -1) => Field): Field => union(0.001, make(1), make(-1));
  const ball = (x: number, y: number, z: number, r: number): Field => sphere(p(x, y, z), r * s);
  const cone = (a: Vec3, b: Vec3, ra: number, rb: number): Field => roundCone(p(...a), p(...b), ra * s, rb * s);

  let f = skull(rig);
  f = union(0.025, f,
    pair((z) => cone([0.005, -0.018, 0.047 * z], [0.066, -0.05, 0.012 * z], 0.018, 0.018)),
    ball(0.075, -0.052, 0, 0.017));
  f = union(0.02, f, pair((z) => ball(0.062, 0.004, 0.036 * z, 0.024)));
  f = union(0.014, f, pair((z) => cone([0.083, 0.066, 0.012 * z], [0.07, 0.066, 0.046 * z], 0.011, 0.009)));
  f = carve(0.012, f, ...BOTH.map((z) => ellipsoid(p(0.1, 0.046, 0.031 * z), [0.02 * s, 0.0135 * s, 0.0185 * s])));
  f = union(0.01, f, cone([0.088, 0.054, 0], [0.11, 0.014, 0], 0.0075, 0.0105));
  f = union(0.008, f, pair((z) => ball(0.1, 0.008, 0.0125 * z, 0.0085)));
  f = carve(0.003, f, ...BOTH.map((z) => ball(0.105, 0.0005, 0.0068 * z, 0.0035)));
  // Muzzle, lips, and the line between them.
  f = union(0.02, f, ball(0.07, -0.022, 0, 0.027));
  f = union(0.006, f, cone([0.0965, -0.0165, 0], [0.087, -0.02, 0.02], 0.0055, 0.003),
    cone([0.0965, -0.0165, 0], [0.087, -0.02, -0.02], 0.0055, 0.003),
    cone([0.0955, -0.0265, 0], [0.087, -0.0225, 0.017], 0.0065, 0.003),
    cone([0.0955, -0.0265, 0], [0.087, -0.0225, -0.017], 0.0065, 0.003));
  f = carve(0.002, f, cone([0.104, -0.0212, -0.001], [0.094, -0.0215, 0.021], 0.002, 0.0012),
    cone([0.104, -0.0212, 0.001], [0.094, -0.0215, -0.021], 0.002, 0.0012));
  // Ears: an oval with a hollow.
  f = union(0.006, f, pair((z) => ellipsoid(p(-0.012, 0.03, 0.077 * z), [0.019 * s, 0.031 * s, 0.0095 * s])));
  f = carve(0.006, f, ...BOTH.map((z) => ellipsoid(p(-0.006, 0.033, 0.087 * z), [0.01 * s, 0.018 * s, 0.006 * s])));
  return union(0.0015, f, lids(p, s));
}

/** Head and neck in skin. */
export function headPart(rig: Rig, outfit: Outfit): Part {
  const p = headPoint(rig);
  const s = rig.body.headSize;
  const neckLow = rig.place('neck', [-0.012, -0.035, 0]);
  const throat = union(0.02,
    roundCone(neckLow, rig.place('head', [-0.012, 0.0, 0]), 0.056, 0.05),
    ellipsoid(rig.place('chest', [0.0, 0.24, 0]), [0.07, 0.045, 0.12]));
  const head = face(rig);
  const mouthUp = p(0.098, -0.0165, 0);
  const mouthLow = p(0.097, -0.0265, 0);
  const cheeks = BOTH.map((z) => p(0.08, 0.004, 0.042 * z));
  const noseTip = p(0.115, 0.012, 0);
  const lipShape = union(0.001,
    ellipsoid(mouthUp, [0.012 * s, 0.006 * s, 0.025 * s]), ellipsoid(mouthLow, [0.012 * s, 0.007 * s, 0.021 * s]));
  const sockets = BOTH.map((z) => sphere(p(0.09, 0.047, 0.031 * z), 0.021 * s));
  const colour = (x: number, y: number, z: number): Colour => {
    let c = tint(outfit.skin, 1 + 0.05 * valueNoise(x * 90, y * 90, z * 90, 3) + 0.03 * valueNoise(x * 30, y * 30, z * 30, 4));
    const red: Colour = [outfit.skin[0] * 1.05, outfit.skin[1] * 0.8, outfit.skin[2] * 0.78];
    for (const cheek of [...cheeks, noseTip]) c = blend(c, red, 0.7 - 30 * Math.hypot(x - cheek[0], y - cheek[1], z - cheek[2]));
    for (const socket of sockets) c = blend(c, tint(outfit.skin, 0.76), 0.75 - Math.max(0, socket(x, y, z)) * 130);
    return blend(c, outfit.lips, 0.5 - lipShape(x, y, z) * 500);
  };
  return {
    name: 'head',
    field: union(0.025, head, throat),
    bounds: boxAround([p(0.125, 0.16, 0.09), p(-0.1, -0.07, -0.09), rig.place('chest', [0, 0.2, 0.12]), rig.place('chest', [0, 0.2, -0.12])], 0.012),
    cellM: 0.0034,
    holders: [
      { bone: 'head', shape: head },
      { bone: 'neck', shape: roundCone(neckLow, rig.place('neck', [-0.012, 0.07, 0]), 0.055, 0.048) },
      { bone: 'chest', shape: ellipsoid(rig.place('chest', [0, 0.23, 0]), [0.08, 0.05, 0.12]) },
    ],
    roughness: 0.62,
    colour,
  };
}

/** Brows: two thin arcs of hair. */
export function browsPart(rig: Rig, outfit: Outfit): Part {
  const p = headPoint(rig);
  const field = union(0.002, ...BOTH.flatMap((z) => [
    roundCone(p(0.0945, 0.067, 0.014 * z), p(0.0905, 0.0715, 0.031 * z), 0.0036, 0.0036),
    roundCone(p(0.0905, 0.0715, 0.031 * z), p(0.0775, 0.068, 0.0475 * z), 0.0036, 0.0024),
  ]));
  return {
    name: 'brows', field, bounds: boxAround([p(0.102, 0.08, 0.055), p(0.06, 0.055, -0.055)], 0.004), cellM: 0.0025,
    holders: [{ bone: 'head', shape: field }], roughness: 0.9, colour: () => outfit.hair,
  };
}

/** Hair: a cap of it over the skull, open at the face, with a bun at the back if asked for. */
export function hairPart(rig: Rig, outfit: Outfit): Part {
  const p = headPoint(rig);
  const s = rig.body.headSize;
  const strands = (x: number, y: number, z: number): number =>
    0.012 + 0.003 * valueNoise(x * 45, y * 45, z * 130, 8) + 0.0015 * valueNoise(x * 160, y * 60, z * 260, 9);
  const shell: Field = (x, y, z) => skullField(x, y, z) - strands(x, y, z);
  const skullField = union(0.03, skull(rig), ellipsoid(p(-0.045, 0.0, 0), [0.05 * s, 0.06 * s, 0.058 * s]));
  let field = carve(0.012, shell,
    ellipsoid(p(0.085, 0.012, 0), [0.09 * s, 0.082 * s, 0.072 * s]),
    behind(p(0, -0.045, 0), [0, 1, 0]),
    ellipsoid(p(0.03, -0.03, 0.08), [0.06 * s, 0.07 * s, 0.04 * s]),
    ellipsoid(p(0.03, -0.03, -0.08), [0.06 * s, 0.07 * s, 0.04 * s]));
  if (outfit.bun) field = union(0.012, field, sphere(p(-0.115, 0.085, 0), 0.04 * s));
  return {
    name: 'hair', field, bounds: boxAround([p(0.11, 0.175, 0.1), p(-0.16, -0.06, -0.1)], 0.012), cellM: 0.0045,
    holders: [{ bone: 'head', shape: field }], roughness: 0.55,
    colour: (x, y, z) => tint(outfit.hair, 1 + 0.35 * valueNoise(x * 60, y * 50, z * 220, 5)),
  };
}

/** A soft baker's cap on the crown: a band and a puffed top. */
export function capPart(rig: Rig, colour: Colour): Part {
  const p = headPoint(rig);
  const s = rig.body.headSize;
  const swollenSkull = skull(rig);
  const band = common(0.004,
    (x, y, z) => swollenSkull(x, y, z) - 0.019,
    behind(p(0.0, 0.15, 0), [-0.2, 1, 0]),
    behind(p(0.0, 0.108, 0), [0.28, -1, 0]));
  const puff = ellipsoid(p(-0.018, 0.158, 0), [0.105 * s, 0.042 * s, 0.098 * s]);
  const field = union(0.012, band, (x, y, z) =>
    puff(x, y, z) - 0.005 * Math.sin(9 * Math.atan2(z - p(0, 0, 0)[2], x - p(-0.018, 0, 0)[0])) - 0.003 * valueNoise(x * 40, y * 40, z * 40, 2));
  return {
    name: 'cap', field, bounds: boxAround([p(0.125, 0.22, 0.125), p(-0.14, 0.07, -0.125)], 0.012), cellM: 0.0055,
    holders: [{ bone: 'head', shape: field }], roughness: 0.95,
    colour: (x, y, z) => tint(colour, 1 + 0.05 * valueNoise(x * 120, y * 120, z * 120, 6)),
  };
}
