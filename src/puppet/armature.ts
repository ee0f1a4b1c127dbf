/**
 * The armature document, version 2: the puppet's own body as it is written in files and books.
 *
 * Axes: right-handed, X the puppet's forward, Y up, Z to the puppet's right; millimetres and grams. The **rest pose** is the
 * one the puppet takes when the performer stands upright with arms hanging. At rest the axes of every bone are those of the
 * whole puppet, whichever way the bone points; a joint's turn is told from there.
 *
 * Only names, lengths and what hangs on what are needed. All the rest has a stated default: `completeArmature.ts` fills it in.
 */
import type { JointName } from '../motion/joints.ts';

export const ARMATURE_FORMAT = 'nudgebook-armature';
export const ARMATURE_VERSION = 2;

/** Forward, up, right. */
export type Triple = readonly [number, number, number];

/**
 * - `ball`: any turn. `wire`: the same, made by bending; it springs back, so its smallest move is larger.
 * - `hinge`: about one axis. `swivel`: about the bone's own length. `screw`: a hinge whose opening a key sets over a thread.
 */
export const PUPPET_KINDS = ['ball', 'hinge', 'swivel', 'wire', 'screw'] as const;
export type PuppetKind = (typeof PUPPET_KINDS)[number];

/** True for kinds that turn about any axis. */
export function turnsFreely(kind: PuppetKind): boolean {
  return kind === 'ball' || kind === 'wire';
}

/** Least and most, degrees. */
export type Range = readonly [number, number];

/**
 * What is told about each axis of a joint: `axis` for kinds of one axis; for balls and wires turns about the parent bone's
 * forward, up and right axes.
 */
export interface PerAxis<T> {
  readonly axis?: T | undefined;
  readonly forward?: T | undefined;
  readonly up?: T | undefined;
  readonly right?: T | undefined;
}
export const FREE_AXES = ['forward', 'up', 'right'] as const;

/** Where a foot meets the floor. */
export interface Sole {
  /** Corners [forward, right] from the bone's start, mm, in order round the sole; at least three. */
  readonly outlineMm: readonly (readonly [number, number])[];
  /** How far below the bone's start the sole lies at rest, mm. */
  readonly dropMm: number;
}

export interface Bone {
  readonly name: string;
  /** From its own joint to its end. */
  readonly lengthMm: number;
  /** `proportion`: its length was not measured but worked out from others; absent: measured. */
  readonly lengthFrom?: 'proportion' | undefined;
  /** Which way it points at rest, in the puppet's axes; any length but zero. */
  readonly along?: Triple | undefined;
  readonly massG?: number | undefined;
  /** Where its mass sits: 0 its start, 1 its end. */
  readonly massAt?: number | undefined;
  /** Half its thickness; for drawing, and for its mass where nothing published fits. */
  readonly radiusMm?: number | undefined;
  /** `null`: it is no foot. */
  readonly sole?: Sole | null | undefined;
  /** Whether it can be tied down to the set. */
  readonly tieDown?: boolean | undefined;
  readonly notes?: string | undefined;
}

/** A thread that opens a joint: see `screw.ts`. */
export interface Screw {
  /** Travel of the thread for one turn of the key, mm. */
  readonly pitchMm: number;
  /** From the joint's axis to where the thread pushes, mm. */
  readonly leverMm: number;
  /** Number of starts of the thread: travel for one turn = pitch × starts. */
  readonly starts?: number | undefined;
  /** Opening at which the lever stands square to the thread, degrees. */
  readonly squareAtDeg?: number | undefined;
  /** Smallest turn of the key that can be repeated. */
  readonly smallestTurns?: number | undefined;
}

export interface Joint {
  readonly name: string;
  /** The bone that carries it; `null` for the one that carries the whole puppet. */
  readonly parent: string | null;
  /** The bone it turns, which starts here. */
  readonly child: string;
  /** Place on the parent bone: 0 its start, 1 its end. */
  readonly at?: number | undefined;
  /** Beside that place, mm, in the parent bone's axes. */
  readonly offsetMm?: Triple | undefined;
  readonly kind?: PuppetKind | undefined;
  /** Axis of a hinge, swivel or screw at rest, in the puppet's axes; positive turns are right-handed about it. */
  readonly axis?: Triple | undefined;
  readonly limitsDeg?: PerAxis<Range | null> | undefined;
  /** Smallest move that a hand can repeat, degrees (of a screw: see Screw.smallestTurns). */
  readonly smallestDeg?: number | undefined;
  /** Play, or springing back, degrees. */
  readonly slackDeg?: number | undefined;
  readonly screw?: Screw | undefined;
  readonly notes?: string | undefined;
}

/** Which joint of the performer moves a joint of the puppet, and how. */
export interface Drive {
  /** The puppet's joint. */
  readonly joint: string;
  /** The performer's joint; `null`: none, it stands at rest or follows a curve set by hand. */
  readonly from: JointName | null;
  /** Share of the bend among the puppet's joints with the same source; only their ratio counts. */
  readonly weight?: number | undefined;
  /** 1 as performed, above 1 exaggerated, below 1 calmed, negative the other way round. */
  readonly gain?: number | undefined;
  /** Added after the gain, degrees; for balls a turn about the parent's axes put before the performer's. */
  readonly offsetDeg?: PerAxis<number> | undefined;
  /** Later than performed by so many steps; fractions allowed, negative is earlier. */
  readonly delaySteps?: number | undefined;
}

export interface Armature {
  readonly format: typeof ARMATURE_FORMAT;
  readonly version: typeof ARMATURE_VERSION;
  readonly name: string;
  readonly notes?: string | undefined;
  /** Weight of the whole puppet, g; what is left after the bones' own weights is shared among the other bones. */
  readonly totalMassG?: number | undefined;
  readonly bones: readonly Bone[];
  /** One for every bone. */
  readonly joints: readonly Joint[];
  /** How this puppet follows a performer, unless the book says otherwise; joints not named follow the performer's joint of the same name. */
  readonly drives?: readonly Drive[] | undefined;
}
