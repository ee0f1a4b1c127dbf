// Poses by the hundred, for what is learned and not set by hand: bodies between the three and beyond, every outfit, cameras all round the front.
import { practice, type Emphasis } from './actions/practice.ts';
import type { Clip } from './clip.ts';
import { BAKER, DUSK, MOSS, PLAIN, RUST, type Outfit } from './figure/outfit.ts';
import { MARLA, ODILE, TORBEN, type Body } from './motion/body.ts';
import { seeded } from './motion/curve.ts';
import { sizeOf } from './motion/scale.ts';
import { GREEN_ROOM, PALE_ROOM, roomFor, upright } from './studio.ts';

const COUNT = 96;
/** Of each lot of clips so many show everything alike, and the others are rich in arms; what comes after the lots shows arms behind the body. */
const LOT = 40;
const ALIKE = 24;
const LOTS = 2;
const emphasisOf = (k: number): Emphasis => (k >= LOT * LOTS ? 'behind' : k % LOT < ALIKE ? 'all' : 'arms');
/** Every frame is another picture, so many more bits than a film's. */
const BITS_PER_SECOND = 5_000_000;
const OUTFITS: readonly Outfit[] = [BAKER, PLAIN, RUST, MOSS, DUSK];
const WALLS = [undefined, GREEN_ROOM, PALE_ROOM] as const;

/** A body between the three, or a little beyond, with its own limbs. */
function bodyOf(name: string): Body {
  const dice = (k: number, from: number, to: number): number => from + (to - from) * seeded(name, k);
  const [a, b] = [dice(0, -0.2, 1), dice(1, -0.2, 0.8)];
  const mixed = Object.fromEntries(Object.entries(MARLA).map(([key, value]) => {
    if (typeof value !== 'number') return [key, name];
    const of = (body: Body): number => body[key as keyof Body] as number;
    return [key, value + a * (of(TORBEN) - value) + b * (of(ODILE) - value)];
  })) as unknown as Body;
  const arms = dice(2, 0.95, 1.06);
  return { ...mixed, upperArm: mixed.upperArm * arms, forearm: mixed.forearm * arms * dice(3, 0.96, 1.04), shoulderHalf: mixed.shoulderHalf * dice(4, 0.95, 1.05) };
}

function clipOf(k: number): Clip {
  const name = `practice-${String(k + 1).padStart(2, '0')}`;
  const dice = (n: number, from: number, to: number): number => from + (to - from) * seeded(`${name}/shot`, n);
  const body = bodyOf(name);
  const size = sizeOf(body);
  const shot = upright(dice(0, -50, 60), dice(1, 0.5, 1.8), {
    distanceM: dice(2, 3.7, 5) * size, fovVerticalDeg: 30, target: [0, 0.98 * size, 0], widthPx: 352, heightPx: 400, rollDeg: dice(3, -3, 3),
  });
  const wall = WALLS[k % WALLS.length];
  return {
    name, set: 'practice', committed: false, action: practice(name, emphasisOf(k)), body, outfit: OUTFITS[k % OUTFITS.length]!, shot,
    room: wall === undefined ? roomFor(shot) : roomFor(shot, wall), bitsPerSecond: BITS_PER_SECOND, sketchy: true,
  };
}

export const PRACTICE_CLIPS: readonly Clip[] = Array.from({ length: COUNT }, (_, k) => clipOf(k));
