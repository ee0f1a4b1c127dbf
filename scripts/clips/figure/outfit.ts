// What a figure wears and its colouring, as data.
import type { Colour } from './part.ts';

export interface Outfit {
  readonly name: string;
  readonly skin: Colour;
  readonly lips: Colour;
  readonly iris: Colour;
  readonly hair: Colour;
  readonly top: Colour;
  readonly trousers: Colour;
  readonly shoes: Colour;
  readonly soles: Colour;
  /** Absent: not worn. */
  readonly apron?: Colour;
  readonly cap?: Colour;
  readonly bun: boolean;
}

const SKIN: Colour = [0.6, 0.37, 0.265];
const LIPS: Colour = [0.46, 0.17, 0.14];

/** Marla the baker: blue shirt, flour-coloured apron and cap. */
export const BAKER: Outfit = {
  name: 'baker',
  skin: SKIN, lips: LIPS, iris: [0.1, 0.06, 0.03], hair: [0.085, 0.035, 0.016],
  top: [0.1, 0.28, 0.42], trousers: [0.16, 0.15, 0.145], shoes: [0.42, 0.035, 0.03], soles: [0.7, 0.66, 0.58],
  apron: [0.72, 0.66, 0.54], cap: [0.74, 0.7, 0.6], bun: true,
};

/** The baker on a day off. */
export const PLAIN: Outfit = {
  name: 'plain',
  skin: SKIN, lips: LIPS, iris: [0.1, 0.06, 0.03], hair: [0.085, 0.035, 0.016],
  top: [0.1, 0.28, 0.42], trousers: [0.16, 0.15, 0.145], shoes: [0.42, 0.035, 0.03], soles: [0.7, 0.66, 0.58],
  bun: true,
};

/** Rust-coloured shirt, denim. */
export const RUST: Outfit = {
  ...PLAIN, name: 'rust', top: [0.48, 0.16, 0.07], trousers: [0.06, 0.1, 0.19], shoes: [0.12, 0.12, 0.13],
};

/** Moss-coloured shirt, sand trousers. */
export const MOSS: Outfit = {
  ...PLAIN, name: 'moss', top: [0.2, 0.29, 0.09], trousers: [0.42, 0.33, 0.22], shoes: [0.2, 0.09, 0.05], bun: false,
};

/** Dark brown skin, grey shirt, wine-coloured trousers. */
export const DUSK: Outfit = {
  ...PLAIN, name: 'dusk', skin: [0.23, 0.115, 0.07], lips: [0.2, 0.07, 0.06], hair: [0.02, 0.017, 0.015],
  top: [0.33, 0.34, 0.35], trousers: [0.17, 0.045, 0.06], shoes: [0.55, 0.5, 0.42], bun: false,
};
