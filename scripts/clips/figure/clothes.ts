// Shirt, trousers, apron: thick solids around the body, folded by noise.
import { signOf, SIDES, type Side } from '../motion/skeleton.ts';
import type { Vec3 } from '../motion/rotation.ts';
import { behind, box, carve, common, ellipsoid, roundCone, sphere, swollen, union, type Field } from './field.ts';
import { valueNoise } from './noise.ts';
import type { Outfit } from './outfit.ts';
import { boxAround, tint, type Colour, type Holder, type Part } from './part.ts';
import type { Rig } from './rig.ts';

/** Folds of about 4 to 6 mm, longer along y than around. */
const folds = (seed: number, sizeM: number) => (x: number, y: number, z: number): number =>
  sizeM * valueNoise(x * 19, y * 11, z * 19, seed) + 0.45 * sizeM * valueNoise(x * 45, y * 30, z * 45, seed + 1);

const weave = (c: Colour, seed: number) => (x: number, y: number, z: number): Colour =>
  tint(c, 1 + 0.06 * valueNoise(x * 150, y * 150, z * 150, seed) + 0.05 * valueNoise(x * 22, y * 22, z * 22, seed + 1));

interface Trunk {
  readonly pelvis: Field;
  readonly waist: Field;
  readonly chest: Field;
  readonly shoulders: Readonly<Record<Side, Field>>;
  readonly sleeves: Readonly<Record<Side, Field>>;
  readonly thighs: Readonly<Record<Side, Field>>;
  readonly shanks: Readonly<Record<Side, Field>>;
}

/** The covered shapes of trunk and limbs, each carried by one bone. */
export function trunkOf(rig: Rig): Trunk {
  const g = rig.body.trunkGirth;
  const l = rig.body.limbGirth;
  const at = rig.place;
  const e = (c: Vec3, r: Vec3): Field => ellipsoid(c, [r[0] * g, r[1], r[2] * g]);
  const bySide = (make: (side: Side, s: 1 | -1) => Field): Record<Side, Field> =>
    ({ left: make('left', -1), right: make('right', 1) });
  const half = rig.body.shoulderHalf;
  return {
    pelvis: union(0.05,
      e(at('pelvis', [-0.004, 0.03, 0]), [0.108, 0.12, 0.158]),
      ...SIDES.map((s) => sphere(at('pelvis', [-0.048, -0.025, signOf(s) * 0.068]), 0.088 * g))),
    waist: e(at('spine', [0.002, 0.085, 0]), [0.098, 0.15, 0.13]),
    chest: union(0.05,
      e(at('chest', [-0.004, 0.1, 0]), [0.108, 0.16, 0.145]),
      ...SIDES.map((s) => ellipsoid(at('chest', [0.062, 0.085, signOf(s) * 0.064]), [0.055 * g, 0.06 * g, 0.058 * g])),
      e(at('chest', [-0.025, 0.2, 0]), [0.075, 0.06, 0.125])),
    shoulders: bySide((side, s) => union(0.03,
      roundCone(at(`${side}Clavicle`, [-0.012, 0.0, s * 0.02]), at(`${side}Clavicle`, [-0.006, -0.012, s * (half - 0.045)]), 0.05, 0.054 * l),
      roundCone(at('neck', [-0.018, -0.002, s * 0.04]), at(`${side}Clavicle`, [-0.012, 0.008, s * 0.1]), 0.03, 0.036))),
    sleeves: bySide((side, s) => common(0.008,
      roundCone(at(`${side}Shoulder`, [0, 0.0, -s * 0.012]), at(`${side}Shoulder`, [0, -0.24, 0]), 0.062 * l, 0.06 * l),
      behind(at(`${side}Shoulder`, [0, -0.165, 0]), sub45(s)))),
    thighs: bySide((side, s) => union(0.02,
      roundCone(at(`${side}Hip`, [0, -0.01, -s * 0.004]), at(`${side}Knee`, [0.002, 0, 0]), 0.092 * l, 0.062 * l))),
    shanks: bySide((side) => union(0.02,
      roundCone(at(`${side}Knee`, [0.002, 0, 0]), at(`${side}Ankle`, [0, 0.02, 0]), 0.062 * l, 0.05 * l),
      roundCone(at(`${side}Knee`, [-0.012, -0.09, 0]), at(`${side}Knee`, [-0.012, -0.16, 0]), 0.053 * l, 0.048 * l))),
  };
}

/** Down the arm in the bind pose (arms raised 45 degrees). */
const sub45 = (s: 1 | -1): Vec3 => [0, -Math.SQRT1_2, s * Math.SQRT1_2];

const trunkHolders = (t: Trunk): readonly Holder[] => [
  { bone: 'pelvis', shape: t.pelvis }, { bone: 'spine', shape: t.waist }, { bone: 'chest', shape: t.chest },
];

/** A short-sleeved shirt, hanging over the trousers' waist. */
export function topPart(rig: Rig, outfit: Outfit, t: Trunk): Part {
  const at = rig.place;
  const hem = behind(at('pelvis', [0, -0.015, 0]), [0, 1, 0]);
  const hip = at('pelvis', [0, 0.1, 0])[1];
  // Wider towards the hem, so that the trousers stay inside.
  const room = (y: number): number => 0.007 + 0.007 * Math.min(1, Math.max(0, (hip - y) / 0.06));
  const neckHole = ellipsoid(at('neck', [0.012, 0.02, 0]), [0.075, 0.055, 0.07]);
  const torso = union(0.06, t.pelvis, t.waist, t.chest);
  const body = union(0.035, torso, t.shoulders.left, t.shoulders.right);
  const dressed = union(0.04, body, t.sleeves.left, t.sleeves.right);
  const field = carve(0.006, swollen(dressed, (x, y, z) => room(y) + folds(21, 0.0055)(x, y, z)), hem, neckHole);
  return {
    name: 'top', field, cellM: 0.0075, roughness: 0.95,
    bounds: boxAround([
      at('pelvis', [0.14, 0, 0.18]), at('pelvis', [-0.16, 0, -0.18]), at('neck', [0, 0.04, 0]),
      ...SIDES.map((s) => at(`${s}Shoulder`, [0, -0.18, signOf(s) * 0.05])),
    ], 0.06),
    holders: [
      ...trunkHolders(t),
      ...SIDES.flatMap((s): Holder[] => [
        { bone: `${s}Clavicle`, shape: t.shoulders[s] }, { bone: `${s}Shoulder`, shape: t.sleeves[s] },
      ]),
    ],
    colour: weave(outfit.top, 31),
  };
}

/** Long trousers. */
export function trousersPart(rig: Rig, outfit: Outfit, t: Trunk): Part {
  const at = rig.place;
  const legs = SIDES.map((s) => union(0.02, t.thighs[s], t.shanks[s]));
  const field = carve(0.006,
    swollen(union(0.035, t.pelvis, union(0.008, ...legs)), folds(41, 0.0055)),
    behind(at('leftAnkle', [0, 0.012, 0]), [0, 1, 0]),
    (x, y, z) => -behind(at('pelvis', [0, 0.1, 0]), [0, 1, 0])(x, y, z));
  return {
    name: 'trousers', field, cellM: 0.0075, roughness: 0.97,
    bounds: boxAround([at('pelvis', [0.13, 0.12, 0.19]), at('pelvis', [-0.15, 0, -0.19]), at('leftAnkle', [0, 0, 0])], 0.04),
    holders: [
      { bone: 'pelvis', shape: t.pelvis },
      ...SIDES.flatMap((s): Holder[] => [{ bone: `${s}Hip`, shape: t.thighs[s] }, { bone: `${s}Knee`, shape: t.shanks[s] }]),
    ],
    colour: weave(outfit.trousers, 51),
  };
}

/** A baker's apron: bib and short skirt in front, a band around the waist. */
export function apronPart(rig: Rig, t: Trunk, colour: Colour): Part {
  const at = rig.place;
  const cloth = swollen(union(0.09, t.pelvis, t.waist, t.chest), (x, y, z) => 0.019 + folds(61, 0.003)(x, y, z));
  const skirt = swollen(
    union(0.12, t.thighs.left, t.thighs.right, t.pelvis), (x, y, z) => 0.017 + folds(63, 0.006)(x, y, z));
  const bib = common(0.006, cloth, box(at('chest', [0.2, -0.02, 0]), [0.2, 0.185, 0.1], 0.03));
  const front = common(0.008, skirt, box(at('pelvis', [0.21, -0.1, 0]), [0.2, 0.21, 0.135], 0.02));
  const band = common(0.006, cloth, box(at('spine', [0, 0.015, 0]), [0.3, 0.022, 0.3], 0.01));
  const field = union(0.01, bib, front, band);
  return {
    name: 'apron', field, cellM: 0.0075, roughness: 0.96,
    bounds: boxAround([at('pelvis', [0.16, -0.33, 0.19]), at('pelvis', [-0.16, 0, -0.19]), at('chest', [0.15, 0.18, 0])], 0.03),
    holders: [
      ...trunkHolders(t),
      { bone: 'leftHip', shape: t.thighs.left }, { bone: 'rightHip', shape: t.thighs.right },
    ],
    colour: weave(colour, 71),
  };
}

/** Shoes with pale soles; the front part follows the toes. */
export function shoePart(rig: Rig, outfit: Outfit, side: Side): Part {
  const ankle = `${side}Ankle` as const;
  const toes = `${side}Toes` as const;
  const s = signOf(side);
  const drop = rig.body.ankleHeight;
  const ball = rig.body.ankleToBall;
  const at = (x: number, y: number, z: number): Vec3 => rig.place(ankle, [x, y - drop, z]);
  const sole = (from: number, to: number, ra: number, rb: number): Field => common(0.004,
    roundCone(at(from, 0.025, 0), at(to, 0.022, s * 0.003), ra, rb), box(at(0.06, 0.012, 0), [0.2, 0.012, 0.06], 0.004));
  const back = union(0.02,
    roundCone(at(-0.022, 0.036, 0), at(ball - 0.03, 0.036, s * 0.002), 0.033, 0.036),
    roundCone(at(-0.014, 0.075, 0), at(0.03, 0.05, 0), 0.037, 0.034));
  const front = union(0.02,
    roundCone(at(ball - 0.02, 0.034, s * 0.002), at(ball + 0.04, 0.029, s * 0.0), 0.036, 0.027),
    ellipsoid(at(ball + 0.035, 0.026, 0), [0.042, 0.024, 0.038]));
  const floor: Field = behind(at(0, 0, 0), [0, -1, 0]);
  const soles = union(0.006, sole(-0.022, ball - 0.03, 0.036, 0.041), sole(ball - 0.02, ball + 0.04, 0.042, 0.036));
  const field = common(0.003, union(0.004, union(0.02, back, front), soles), floor);
  const edge = at(0, 0.021, 0)[1];
  return {
    name: `${side}Shoe`, field, cellM: 0.005, roughness: 0.6,
    bounds: boxAround([at(-0.06, 0.11, 0.04), at(ball + 0.085, 0, -0.04)], 0.012),
    holders: [{ bone: ankle, shape: back }, { bone: toes, shape: front }],
    colour: (x, y, z) => (y < edge ? outfit.soles : tint(outfit.shoes, 1 + 0.05 * valueNoise(x * 90, y * 90, z * 90, 81))),
  };
}
