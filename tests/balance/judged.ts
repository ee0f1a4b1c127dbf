/** Balances of made-up rows of poses, for the tests: Marla, every joint at rest unless told, her feet on the floor. */
import type { Balance } from '../../src/balance/balance.ts';
import { judgeBalance, type BalanceSources } from '../../src/balance/judgeBalance.ts';
import { DEFAULT_POISE, type PoiseSettings } from '../../src/balance/poiseSettings.ts';
import { JOINT_COUNT } from '../../src/motion/joints.ts';
import type { Quat } from '../../src/numeric/quaternion.ts';
import type { Armature } from '../../src/puppet/armature.ts';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { feetOf } from '../../src/puppet/feet.ts';

export interface Row {
  readonly armature?: Armature;
  readonly steps: number;
  /** Turn of a joint at a step; at rest where it gives nothing. */
  readonly turn?: (joint: string, step: number) => Quat | undefined;
  /** Of the root bone's start at a step, beside where it stands at rest, mm. */
  readonly shiftMm?: (step: number) => readonly [number, number, number];
  /** Which feet stand; both where it isn't told. */
  readonly stands?: (foot: string, step: number) => boolean;
  readonly unsure?: (joint: string, step: number) => number;
  readonly confidence?: number;
  readonly errorDeg?: number;
  /** Film seconds of a step: a 24th. */
  readonly stepS?: number;
  readonly heightM?: number | null;
  readonly performerHeightM?: number;
}

export function sourcesOf(row: Row): BalanceSources {
  const armature = completeArmature(row.armature ?? MARLA);
  const { joints } = armature;
  const n = row.steps;
  const rotations = new Float64Array(n * joints.length * 4);
  const rootMm = new Float64Array(n * 3);
  for (let s = 0; s < n; s++) {
    joints.forEach(({ name }, p) => rotations.set(row.turn?.(name, s) ?? [1, 0, 0, 0], (s * joints.length + p) * 4));
    const [x, y, z] = row.shiftMm?.(s) ?? [0, 0, 0];
    rootMm.set([x, armature.rootHeightMm + y, z], s * 3);
  }
  const feet = feetOf(armature, armature.drives);
  const size = n * joints.length;
  const moved = {
    joints: joints.map(({ name, kind, axis }) => ({ name, kind, axis, source: null, observable: true, turnHidden: false })), rotations, rootMm, feet, placed: [],
    stands: Uint8Array.from({ length: n * feet.length }, (_, i) => ((row.stands?.(feet[i % feet.length]!.name, Math.floor(i / feet.length)) ?? true) ? 1 : 0)),
    confidence: new Float32Array(size).fill(row.confidence ?? 1), state: new Uint8Array(size), flags: new Uint8Array(size), errorDeg: new Float32Array(size).fill(row.errorDeg ?? 3),
    turnErrorDeg: new Float32Array(size).fill(Number.NaN),
    unsure: Uint8Array.from({ length: size }, (_, i) => row.unsure?.(joints[i % joints.length]!.name, Math.floor(i / joints.length)) ?? 0),
  };
  const stepS = row.stepS ?? 1 / 24;
  const timesS = Float64Array.from({ length: n }, (_, s) => s * stepS);
  const poses = {
    timesS, rotations: new Float64Array(n * JOINT_COUNT * 4), rootM: new Float64Array(n * 3), contacts: new Uint8Array(n * 2), confidence: new Float32Array(n * JOINT_COUNT),
    state: new Uint8Array(n * JOINT_COUNT), errorDeg: new Float32Array(n * JOINT_COUNT), turnErrorDeg: new Float32Array(n * JOINT_COUNT), unsure: new Uint8Array(n * JOINT_COUNT),
  };
  return {
    armature, moved, ordered: moved, poses, performerHeightM: row.performerHeightM ?? 1.7, performer: null, apparentHeightM: row.heightM ?? null,
    steps: { count: n, exposure: Int32Array.from({ length: n }, (_, s) => s + 1), holds: new Int32Array(n).fill(1), filmTimeS: timesS, sourceTimeS: timesS },
  };
}

export function judgedRow(row: Row, poise: Partial<PoiseSettings> = {}): Balance {
  return judgeBalance(sourcesOf(row), { ...DEFAULT_POISE, ...poise });
}
