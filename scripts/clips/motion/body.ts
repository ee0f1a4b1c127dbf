// The proportions of a performer, as data, so that another body is another object and not other code.

/** Lengths in metres in the rest pose: upright, arms hanging, feet flat. */
export interface Body {
  readonly name: string;
  /** Half the distance between the hip joints. */
  readonly hipHalf: number;
  readonly hipHeight: number;
  readonly kneeHeight: number;
  readonly ankleHeight: number;
  /** Heights of the joints of the trunk. */
  readonly spineHeight: number;
  readonly chestHeight: number;
  readonly neckHeight: number;
  readonly headHeight: number;
  readonly clavicleHeight: number;
  readonly clavicleHalf: number;
  readonly shoulderHeight: number;
  readonly shoulderHalf: number;
  readonly upperArm: number;
  readonly forearm: number;
  /** From the ankle to the ball of the foot, forward, and to the back of the heel, backward. */
  readonly ankleToBall: number;
  readonly ankleToHeel: number;
  /** Factors on the thickness of trunk, limbs, and on the whole head. 1 is the drawn figure. */
  readonly trunkGirth: number;
  readonly limbGirth: number;
  readonly headSize: number;
}

/** Joint heights after the laboratory notes; trunk joints chosen by eye between them. */
export const MARLA: Body = {
  name: 'marla',
  hipHalf: 0.09,
  hipHeight: 0.915,
  kneeHeight: 0.49,
  ankleHeight: 0.078,
  spineHeight: 1.02,
  chestHeight: 1.19,
  neckHeight: 1.47,
  headHeight: 1.6,
  clavicleHeight: 1.425,
  clavicleHalf: 0.03,
  shoulderHeight: 1.42,
  shoulderHalf: 0.172,
  upperArm: 0.285,
  forearm: 0.255,
  ankleToBall: 0.125,
  ankleToHeel: 0.05,
  trunkGirth: 1,
  limbGirth: 1,
  headSize: 1,
};

/** A broader, slightly taller body with longer arms. */
export const TORBEN: Body = {
  ...MARLA,
  name: 'torben',
  hipHeight: 0.935,
  kneeHeight: 0.5,
  ankleHeight: 0.08,
  hipHalf: 0.092,
  spineHeight: 1.035,
  chestHeight: 1.205,
  neckHeight: 1.5,
  headHeight: 1.632,
  clavicleHeight: 1.452,
  shoulderHeight: 1.447,
  shoulderHalf: 0.19,
  upperArm: 0.295,
  forearm: 0.262,
  trunkGirth: 1.08,
  limbGirth: 1.08,
  headSize: 1.03,
};

/** A short, stocky body: legs and arms a tenth shorter than Marla's, broader everywhere. */
export const ODILE: Body = {
  ...MARLA,
  name: 'odile',
  hipHeight: 0.812,
  kneeHeight: 0.437,
  ankleHeight: 0.074,
  hipHalf: 0.098,
  spineHeight: 0.915,
  chestHeight: 1.075,
  neckHeight: 1.335,
  headHeight: 1.458,
  clavicleHeight: 1.292,
  shoulderHeight: 1.288,
  shoulderHalf: 0.179,
  upperArm: 0.256,
  forearm: 0.226,
  ankleToBall: 0.115,
  trunkGirth: 1.17,
  limbGirth: 1.12,
  headSize: 1.0,
};
