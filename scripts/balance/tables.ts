/** What the clips with truth say of the balance, as tables. */
import { VERDICTS, type Balance } from '../../src/balance/balance.ts';
import { SURE } from '../../src/balance/verdicts.ts';
import { markdownTable } from '../bench/document/markdownTable.ts';
import { figure, NONE, percent } from '../accuracy/words.ts';
import type { ClipBalance } from './clipBalance.ts';

export interface NamedBalance extends ClipBalance {
  readonly name: string;
  readonly set: string;
}

/** A step of which both tell a margin. */
interface Pair {
  readonly clip: string;
  readonly set: string;
  readonly sameContacts: boolean;
  readonly oneFoot: boolean;
  readonly measuredMm: number;
  readonly exactMm: number;
  readonly sigmaMm: number;
  readonly measuredMoveMm: number;
  readonly exactMoveMm: number;
  readonly moveSigmaMm: number;
  readonly verdict: string;
  /** Of the centre of mass against the middle of the support, along X and Z. */
  readonly offX: number;
  readonly offZ: number;
}

export function pairs({ name, set, plan, measured, exact }: NamedBalance): readonly Pair[] {
  const width = plan.feet.length;
  const touching = (b: Balance, s: number): string => b.touching.slice(s * width, (s + 1) * width).join('');
  const middle = (b: Balance, s: number, c: number): number => {
    const outline = b.support[s]!;
    let sum = 0;
    for (let i = c; i < outline.length; i += 2) sum += outline[i]!;
    return (sum / outline.length) * 2;
  };
  const out: Pair[] = [];
  for (let s = 0; s < plan.stepCount; s++) {
    if (Number.isNaN(measured.standMm[s]!) || Number.isNaN(exact.standMm[s]!)) continue;
    const off = (c: number): number => measured.massMm[s * 3 + c * 2]! - middle(measured, s, c) - exact.massMm[s * 3 + c * 2]! + middle(exact, s, c);
    out.push({
      clip: name, set, sameContacts: touching(measured, s) === touching(exact, s), oneFoot: /^0*10*$/.test(touching(measured, s)),
      measuredMm: measured.standMm[s]!, exactMm: exact.standMm[s]!, sigmaMm: measured.marginSigmaMm[s]!,
      measuredMoveMm: measured.moveMm[s]!, exactMoveMm: exact.moveMm[s]!, moveSigmaMm: measured.moveSigmaMm[s]!,
      verdict: VERDICTS[measured.standVerdict[s]!]!, offX: off(0), offZ: off(1),
    });
  }
  return out;
}

const rms = (values: readonly number[]): number => Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);
const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
const within = (some: readonly Pair[], n: number): string => (some.length === 0 ? NONE : percent(some.filter((p) => Math.abs(p.measuredMm - p.exactMm) <= n * p.sigmaMm).length / some.length, 0));
const movedWithin = (some: readonly Pair[], n: number): string =>
  (some.length === 0 ? NONE : percent(some.filter((p) => Math.abs(p.measuredMoveMm - p.exactMoveMm) <= n * p.moveSigmaMm).length / some.length, 0));
const mm = (values: readonly number[], of: (values: readonly number[]) => number): string => (values.length === 0 ? NONE : figure(of(values)));

/** One line a clip. */
export function clipTable(clips: readonly NamedBalance[]): string {
  const line = (name: string, set: string, steps: number, all: readonly Pair[]): string[] => {
    const some = all.filter(({ sameContacts }) => sameContacts);
    const errors = some.map((p) => p.measuredMm - p.exactMm);
    return [
      name, set, String(steps), String(all.length), String(all.length - some.length), mm(some.map(({ offX }) => offX), rms), mm(some.map(({ offZ }) => offZ), rms),
      mm(errors, rms), mm(errors, mean), within(some, 1), within(some, 2), mm(some.map((p) => p.measuredMoveMm - p.exactMoveMm), rms), movedWithin(some, 1), movedWithin(some, 2),
    ];
  };
  const all = clips.map((clip) => ({ ...clip, all: pairs(clip) }));
  const sets = [...new Set(clips.map(({ set }) => set))];
  return markdownTable(
    ['clip', 'half', 'steps|r', 'judged|r', 'other contacts|r', 'mass, X|r', 'mass, Z|r', 'margin|r', 'of it steady|r', '≤ 1 σ|r', '≤ 2 σ|r', 'in motion|r', '≤ 1 σ|r', '≤ 2 σ|r'],
    [
      ...all.map(({ name, set, plan, all: some }) => line(name, set, plan.stepCount, some)),
      ...sets.map((set) => line('all', set, all.reduce((n, one) => (one.set === set ? n + one.plan.stepCount : n), 0), all.flatMap((one) => (one.set === set ? one.all : [])))),
    ],
  );
}

/** Verdicts of standing against the side of the edge on which the true centre of mass lies. */
export function verdictTable(clips: readonly NamedBalance[]): string {
  const all = clips.flatMap(pairs);
  const line = (what: string, some: readonly Pair[]): string[] => [
    what, String(some.length), ...['holds', 'marginal', 'falls'].flatMap((verdict) => {
      const those = some.filter((p) => p.verdict === verdict);
      return [String(those.length), String(those.filter(({ exactMm }) => exactMm < 0).length)];
    }),
  ];
  return markdownTable(
    ['steps', 'judged|r', 'holds|r', 'of these truly outside|r', 'marginal|r', 'outside|r', 'falls|r', 'outside|r'],
    [
      line('the same feet touch', all.filter(({ sameContacts }) => sameContacts)), line('of these on one foot', all.filter((p) => p.sameContacts && p.oneFoot)),
      line('the take has other feet touching', all.filter(({ sameContacts }) => !sameContacts)),
    ],
  ) + `\nHolds: beyond ${SURE.holds} σ inside; falls: beyond ${SURE.falls} σ outside.`;
}

/** How often a foot is told wrong, by how well it is seen. */
export function contactTable(clips: readonly NamedBalance[]): string {
  const bins = [0, 0.25, 0.5, 0.75, 1.001];
  const counts = bins.slice(1).map(() => [0, 0] as [number, number]);
  for (const { plan, measured, exact } of clips) {
    for (let s = 0; s < plan.stepCount; s++) {
      plan.feet.forEach(({ bone }, f) => {
        const seen = plan.confidence[s * plan.joints.length + bone]!;
        const bin = counts[bins.slice(1).findIndex((to) => seen < to)]!;
        bin[0] += 1;
        if (measured.touching[s * plan.feet.length + f] !== exact.touching[s * plan.feet.length + f]) bin[1] += 1;
      });
    }
  }
  return markdownTable(['visibility of the foot', 'feet at steps|r', 'told otherwise than it is|r'], counts.map(([n, wrong], k) => [
    `${bins[k]!.toFixed(2)} to ${Math.min(1, bins[k + 1]!).toFixed(2)}`, String(n), n === 0 ? NONE : percent(wrong / n, 1),
  ]));
}

/** What one sigma of place and speed is in a body of the performer's size: middle two thirds of the errors of the tuning half. */
export function sigmaWord(clips: readonly NamedBalance[], mmPerM: number): string {
  const some = clips.filter(({ set }) => set === 'tuning').flatMap(pairs).filter(({ sameContacts }) => sameContacts);
  const half = (of: (p: Pair) => number): string => {
    const sizes = some.map((p) => Math.abs(of(p))).sort((a, b) => a - b);
    return `${figure((sizes[Math.floor(sizes.length * 0.6827)]! / mmPerM) * 100)} cm`;
  };
  return `68 % of the errors of the tuning half lie within ${half(({ offX }) => offX)} toward the camera and ${half(({ offZ }) => offZ)} across, in a body of the performer's size.`;
}
