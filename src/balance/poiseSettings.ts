/**
 * What a person sets for the balance of the puppet: what touches, what is tied down, what it carries, which corrections
 * are applied. Kept in the book as `book.poise`; plain data. Times are container seconds of the take.
 */
import type { Triple } from '../puppet/armature.ts';

export const MASS_TABLES = ['de Leva, male', 'de Leva, female', 'Winter'] as const;
export type MassTable = (typeof MASS_TABLES)[number];

/** Says that a bone touches the set, or does not, over a while; what is not said is as the take has it (feet) or does not touch. */
export interface Touch {
  readonly bone: string;
  readonly fromS: number;
  readonly toS: number;
  readonly touches: boolean;
}

/** A foot that is fixed to the set over a while. */
export interface TieDown {
  /** Name of the bone with the sole. */
  readonly foot: string;
  readonly fromS: number;
  readonly toS: number;
}

/** Something that a bone carries. */
export interface Prop {
  readonly name: string;
  readonly bone: string;
  /** Of its centre of mass from the bone's start, in the bone's axes, mm. */
  readonly atMm: Triple;
  readonly massG: number;
  readonly fromS: number;
  readonly toS: number;
}

/** Turns of one joint added by a correction: rotation vector in the parent's axes, degrees; of a joint of one axis the first number alone. */
export interface CorrectionTurn {
  readonly joint: string;
  readonly keys: readonly { readonly timeS: number; readonly turnDeg: Triple }[];
}

/** A change that brings some steps to a margin. Between the keys smooth without overshoot, nothing before the first and after the last. */
export interface PoiseCorrection {
  /** Unique; never shown. */
  readonly id: string;
  readonly fromS: number;
  readonly toS: number;
  /** What it was asked to reach, mm. */
  readonly marginMm: number;
  readonly applied: boolean;
  readonly turns: readonly CorrectionTurn[];
  /** Of the root bone on the set. */
  readonly shift: readonly { readonly timeS: number; readonly shiftMm: Triple }[];
}

export interface PoiseSettings {
  /** Whose mass table the performer is weighed by. */
  readonly table: MassTable;
  /** Length of the pendulum as a multiple of the leg's. */
  readonly pendulumFactor: number;
  readonly touches: readonly Touch[];
  readonly tieDowns: readonly TieDown[];
  readonly props: readonly Prop[];
  /** What corrections are asked to reach, mm inside the edge. */
  readonly marginMm: number;
  readonly corrections: readonly PoiseCorrection[];
}

export const DEFAULT_POISE: PoiseSettings = {
  table: 'de Leva, female',
  pendulumFactor: 1.2,
  touches: [],
  tieDowns: [],
  props: [],
  marginMm: 3,
  corrections: [],
};
