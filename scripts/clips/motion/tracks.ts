// Lets an action be written as a table: channel name -> keys. Whatever has no row keeps its standing value.
import type { Body } from './body.ts';
import { alongKeys, type Key } from './curve.ts';
import type { ArmChannels, Channels, FootChannels } from './pose.ts';
import { signOf, SIDES, type Side } from './skeleton.ts';
import { standing } from './standing.ts';

type TrunkChannel =
  | 'pelvisPitch' | 'pelvisLean' | 'pelvisYaw' | 'trunkPitch' | 'trunkLean' | 'trunkYaw'
  | 'headPitch' | 'headLean' | 'headYaw';
type ArmTrack = `${Side}Arm.${keyof ArmChannels}`;
type FootTrack = `${Side}Foot.${'forward' | 'up' | 'outward' | 'pitch' | 'yaw' | 'kneeOut' | 'toes'}`;
/** Root tracks and foot forward/up/outward are metres away from standing; all others absolute degrees. */
export type TrackName = TrunkChannel | ArmTrack | FootTrack | 'root.forward' | 'root.up' | 'root.right';
export type Tracks = Readonly<Partial<Record<TrackName, readonly Key[]>>>;

/** A foot lifted less than this is on the floor (m). */
const FLOOR_GAP_M = 0.001;

/** The channels of one moment. */
export function channelsAt(body: Body, tracks: Tracks, timeS: number): Channels {
  const base = standing(body);
  const value = (name: TrackName, otherwise: number): number => {
    const keys = tracks[name];
    return keys === undefined ? otherwise : alongKeys(keys, timeS);
  };
  const arm = (side: Side): ArmChannels => {
    const a = base.arms[side];
    const of = (name: keyof ArmChannels): number => value(`${side}Arm.${name}`, a[name]);
    return {
      elevation: of('elevation'), plane: of('plane'), twist: of('twist'), elbow: of('elbow'),
      wristFlex: of('wristFlex'), wristThumb: of('wristThumb'), wristTwist: of('wristTwist'),
    };
  };
  const foot = (side: Side): FootChannels => {
    const f = base.feet[side];
    const up = value(`${side}Foot.up`, 0);
    return {
      ankle: [
        f.ankle[0] + value(`${side}Foot.forward`, 0),
        f.ankle[1] + up,
        f.ankle[2] + signOf(side) * value(`${side}Foot.outward`, 0),
      ],
      pitch: value(`${side}Foot.pitch`, f.pitch),
      yaw: value(`${side}Foot.yaw`, f.yaw),
      kneeOut: value(`${side}Foot.kneeOut`, f.kneeOut),
      toes: value(`${side}Foot.toes`, f.toes),
      onFloor: up < FLOOR_GAP_M,
    };
  };
  const trunk = (name: TrunkChannel): number => value(name, base[name]);
  const [left, right] = SIDES;
  if (left === undefined || right === undefined) throw new Error('a body has two sides');
  return {
    root: [
      base.root[0] + value('root.forward', 0),
      base.root[1] + value('root.up', 0),
      base.root[2] + value('root.right', 0),
    ],
    pelvisPitch: trunk('pelvisPitch'), pelvisLean: trunk('pelvisLean'), pelvisYaw: trunk('pelvisYaw'),
    trunkPitch: trunk('trunkPitch'), trunkLean: trunk('trunkLean'), trunkYaw: trunk('trunkYaw'),
    headPitch: trunk('headPitch'), headLean: trunk('headLean'), headYaw: trunk('headYaw'),
    arms: { left: arm('left'), right: arm('right') },
    feet: { left: foot('left'), right: foot('right') },
  };
}
