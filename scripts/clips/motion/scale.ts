// Small helpers by which one table of keys serves several bodies and tempos.
import { MARLA, type Body } from './body.ts';
import type { Key } from './curve.ts';
import type { ArmChannels, Channels } from './pose.ts';
import type { TrackName, Tracks } from './tracks.ts';

/** How tall a body is against the one for which distances are written down. */
export const sizeOf = (body: Body): number => body.hipHeight / MARLA.hipHeight;

/** Keys with every time multiplied by `pace`: above 1 is slower. */
export const paced = (keys: readonly Key[], pace: number): readonly Key[] => keys.map(([t, v]) => [t * pace, v]);

/** A whole table at another pace. */
export const pacedTracks = (tracks: Tracks, pace: number): Tracks =>
  Object.fromEntries(Object.entries(tracks).map(([name, keys]) => [name, paced(keys, pace)])) as Partial<Record<TrackName, readonly Key[]>>;

/** Elevation and plane of an arm swung forward by `swingDeg` and held outward by `spreadDeg`. */
export function sagittal(swingDeg: number, spreadDeg: number): Pick<ArmChannels, 'elevation' | 'plane'> {
  return { elevation: Math.hypot(swingDeg, spreadDeg), plane: (Math.atan2(swingDeg, spreadDeg) * 180) / Math.PI };
}

/** `lively` with a share of its root taken back to `calm`: whoever sits or kneels does not sway at the hips. */
export const settled = (calm: Channels, lively: Channels, share: number): Channels => ({
  ...lively,
  root: [
    lively.root[0] + (calm.root[0] - lively.root[0]) * share,
    lively.root[1] + (calm.root[1] - lively.root[1]) * share,
    lively.root[2] + (calm.root[2] - lively.root[2]) * share,
  ],
  pelvisLean: lively.pelvisLean + (calm.pelvisLean - lively.pelvisLean) * share,
  pelvisYaw: lively.pelvisYaw + (calm.pelvisYaw - lively.pelvisYaw) * share,
});
