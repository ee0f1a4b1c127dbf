// What surrounds the performer, as data. Set pieces are in world metres; walls stand square to `facingDeg`.
import type { Colour } from './figure/part.ts';
import type { Vec3 } from './motion/rotation.ts';

/** A shelf on two posts with things on its boards; `at` is the middle of its foot. */
export interface Rack {
  readonly at: Vec3;
  /** Turn about the vertical, degrees: 0 has the front towards +X. */
  readonly turnDeg: number;
  readonly widthM: number;
  readonly depthM: number;
  readonly boards: readonly number[];
  /** The jar that is reached for: its foot. */
  readonly jar: Vec3;
}

/** A board on four legs: a stool or a table. `at` is the middle of its foot; sides along the world's axes. */
export interface Furniture {
  readonly at: Vec3;
  /** Along X and along Z. */
  readonly depthM: number;
  readonly widthM: number;
  /** Of the upper side of the board. */
  readonly topM: number;
  /** Closed towards +X by boards down to this height; absent: open. */
  readonly apronToM?: number;
  readonly wood: Colour;
}

export interface Room {
  readonly name: string;
  /** Azimuth (as of a camera) from which the back wall is seen square. */
  readonly facingDeg: number;
  /** From the middle of the set to the back wall. */
  readonly wallM: number;
  readonly middle: Vec3;
  readonly wall: Colour;
  readonly floor: Colour;
  readonly sky: Colour;
  readonly hemisphere: number;
  readonly key: number;
  readonly fill: number;
  readonly nightWindow: boolean;
  readonly rack?: Rack;
  readonly furniture?: readonly Furniture[];
}

export const WORKROOM: Room = {
  name: 'workroom', facingDeg: 8, wallM: 1.9, middle: [0, 0, 0],
  wall: [0.56, 0.52, 0.45], floor: [0.3, 0.19, 0.11], sky: [0.95, 0.97, 1],
  hemisphere: 1.15, key: 2.3, fill: 0.55, nightWindow: false,
};

/** Marla's bakery at night: warm lamp, dark window, a rack with a jar on top. */
export const BAKERY: Room = {
  name: 'bakery', facingDeg: 28, wallM: 1.95, middle: [0, 0, 0],
  wall: [0.4, 0.31, 0.23], floor: [0.26, 0.16, 0.1], sky: [0.75, 0.8, 1],
  hemisphere: 0.95, key: 2.4, fill: 0.5, nightWindow: true,
  rack: {
    at: [0.12, 0, -0.66], turnDeg: 90, widthM: 0.62, depthM: 0.3, boards: [0.22, 0.76, 1.3, 1.8775], jar: [0.27, 1.89, -0.59],
  },
};
