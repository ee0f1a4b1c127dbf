/** What touches the set at each step: soles as the take tells, and what a person says. */
import type { MovedPuppet } from '../puppet/movePuppet.ts';
import { UNSURE_BRIDGED, UNSURE_HIDDEN } from '../motion/trust/unsure.ts';
import type { CompleteArmature } from '../puppet/complete.ts';
import type { Foot } from '../puppet/feet.ts';
import { hullOf } from './hull.ts';
import type { PoiseSettings } from './poiseSettings.ts';

/** Something that may touch: a sole, or a bone that a person said touches. */
export interface Toucher {
  readonly name: string;
  readonly bone: number;
  /** Of a sole: outline from the bone's start, in its axes, `[x, y, z, …]` mm. Empty for a bone without a sole. */
  readonly outlineMm: Float64Array;
  /** Of a bone without a sole: half the side of the level square that it rests on, mm. */
  readonly padMm: number;
  /** Smallest width of what it rests on, mm; margins are told as shares of it. */
  readonly widthMm: number;
  readonly isFoot: boolean;
  /** Whether it can be tied down. */
  readonly canTie: boolean;
}

/** Half the side of what a bone rests on where it is thinner than that, mm. Our choice. */
const LEAST_PAD_MM = 2;

/**
 * Below this visibility of a hidden foot its contact was not measured. Our choice, after the clips with truth (docs/balance.md): the far foot of a
 * body from the side lies above it and is told wrong in about one step of seven; behind a table visibility is below 0.2.
 */
export const FOOT_SEEN_FROM = 0.25;

/** Soles in the order of `feet`, then the other bones of `touches`. Bones that the puppet doesn't have are left out. */
export function touchersOf({ bones }: CompleteArmature, feet: readonly Foot[], touches: PoiseSettings['touches']): readonly Toucher[] {
  const soles = feet.map(({ bone, name }): Toucher => {
    const { outlineMm, dropMm } = bones[bone]!.sole!;
    return {
      name, bone, padMm: 0, widthMm: narrowest(outlineMm.flat()), isFoot: true, canTie: bones[bone]!.tieDown,
      outlineMm: Float64Array.from(outlineMm.flatMap(([x, z]) => [x, -dropMm, z])),
    };
  });
  const named = [...new Set(touches.map(({ bone }) => bone))].filter((name) => !feet.some((foot) => foot.name === name));
  const others = named.flatMap((name): readonly Toucher[] => {
    const bone = bones.findIndex((one) => one.name === name);
    if (bone < 0) return [];
    const padMm = Math.max(LEAST_PAD_MM, bones[bone]!.radiusMm);
    return [{ name, bone, padMm, widthMm: 2 * padMm, isFoot: false, canTie: false, outlineMm: new Float64Array(0) }];
  });
  return [...soles, ...others];
}

/** Smallest width of a convex outline: over all its edges, the farthest corner from the edge's line. */
function narrowest(points: readonly number[]): number {
  const outline = hullOf(points);
  const n = outline.length / 2;
  if (n < 3) return 0;
  let least = Infinity;
  for (let k = 0; k < n; k++) {
    const next = (k + 1) % n;
    const [ax, az] = [outline[k * 2]!, outline[k * 2 + 1]!];
    const [dx, dz] = [outline[next * 2]! - ax, outline[next * 2 + 1]! - az];
    let most = 0;
    for (let i = 0; i < n; i++) most = Math.max(most, Math.abs(dx * (outline[i * 2 + 1]! - az) - dz * (outline[i * 2]! - ax)) / Math.hypot(dx, dz));
    least = Math.min(least, most);
  }
  return least;
}

/**
 * N steps, T touchers.
 * - `touching[N·T]` 1 where it touches, as the take has it (soles) or a person says.
 * - `told[N·T]` 1 where a person said so, or said not.
 * - `unseen[N·T]` 1 where nobody said and the take could not see the foot: whether it touches was not measured.
 */
export interface Contacts {
  readonly touching: Uint8Array;
  readonly told: Uint8Array;
  readonly unseen: Uint8Array;
}

/**
 * Of spans that overlap the later in the list counts. A foot that is tied down touches while the take can't see it; where the take
 * sees it lifted, it is lifted.
 *
 * @param stands `[N·F]` where the take has feet standing. @param timesS `[N]` container seconds
 */
export function contactsOf(
  touchers: readonly Toucher[], { feet, joints, unsure, confidence }: Pick<MovedPuppet, 'feet' | 'joints' | 'unsure' | 'confidence'>, stands: Uint8Array, timesS: Float64Array,
  { touches, tieDowns }: Pick<PoiseSettings, 'touches' | 'tieDowns'>,
): Contacts {
  const count = timesS.length;
  const width = touchers.length;
  const touching = new Uint8Array(count * width);
  const told = new Uint8Array(count * width);
  const unseen = new Uint8Array(count * width);
  touchers.forEach(({ name, bone, isFoot }, k) => {
    if (isFoot) {
      for (let s = 0; s < count; s++) {
        touching[s * width + k] = stands[s * feet.length + k]!;
        const at = s * joints.length + bone;
        const bits = unsure[at]!;
        unseen[s * width + k] = (bits & UNSURE_BRIDGED) !== 0 || ((bits & UNSURE_HIDDEN) !== 0 && confidence[at]! < FOOT_SEEN_FROM) ? 1 : 0;
      }
      for (const { foot, fromS, toS } of tieDowns) {
        if (foot !== name) continue;
        for (let s = 0; s < count; s++) if (unseen[s * width + k] === 1 && timesS[s]! >= fromS && timesS[s]! <= toS) say(s * width + k, 1);
      }
    }
    for (const { bone: said, fromS, toS, touches: does } of touches) {
      if (said !== name) continue;
      for (let s = 0; s < count; s++) if (timesS[s]! >= fromS && timesS[s]! <= toS) say(s * width + k, does ? 1 : 0);
    }
  });
  return { touching, told, unseen };

  function say(at: number, does: 0 | 1): void {
    touching[at] = does;
    told[at] = 1;
    unseen[at] = 0;
  }
}
