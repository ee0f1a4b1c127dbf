// Poses by the hundred, for what is learned and not set by hand: bodies between the three and beyond, every outfit, cameras all round the front.
import { practice, type Emphasis } from './actions/practice.ts';
import type { Clip } from './clip.ts';
import { BAKER, DUSK, MOSS, PLAIN, RUST, type Outfit } from './figure/outfit.ts';
import { MARLA, ODILE, TORBEN, type Body } from './motion/body.ts';
import { seeded } from './motion/curve.ts';
import { sizeOf } from './motion/scale.ts';
import { GREEN_ROOM, PALE_ROOM, roomFor, table, upright } from './studio.ts';

/** What the clips are rich in, in the order in which they were made: what had been made before stays as it was. */
const LOTS: readonly (readonly [number, Emphasis])[] = [[24, 'all'], [16, 'arms'], [24, 'all'], [16, 'arms'], [16, 'behind'], [48, 'forearms'], [24, 'lens'], [24, 'all']];
const EMPHASES: readonly Emphasis[] = LOTS.flatMap(([count, emphasis]) => Array.from({ length: count }, () => emphasis));
/** From the first clip of these lots on every sixth stands behind a table. */
const TABLES_FROM = 96;
const TABLE_EVERY = 6;
/** Every frame is another picture, so many more bits than a film's. */
const BITS_PER_SECOND = 5_000_000;
const OUTFITS: readonly Outfit[] = [BAKER, PLAIN, RUST, MOSS, DUSK];
const WALLS = [undefined, GREEN_ROOM, PALE_ROOM] as const;

/** Where arms that come at the lens are in question the camera stands nearer to the front. */
const NEAR_FRONT: readonly Emphasis[] = ['forearms', 'lens'];

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
  const shot = upright(NEAR_FRONT.includes(EMPHASES[k]!) ? dice(0, -35, 35) : dice(0, -50, 60), dice(1, 0.5, 1.8), {
    distanceM: dice(2, 3.7, 5) * size, fovVerticalDeg: 30, target: [0, 0.98 * size, 0], widthPx: 352, heightPx: 400, rollDeg: dice(3, -3, 3),
  });
  const wall = WALLS[k % WALLS.length];
  const furniture = k >= TABLES_FROM && k % TABLE_EVERY === 0 ? [table(body, dice(4, 0.05, 0.45))] : [];
  return {
    name, set: 'practice', committed: false, action: practice(name, EMPHASES[k]!), body, outfit: OUTFITS[k % OUTFITS.length]!, shot,
    room: roomFor(shot, wall, furniture), bitsPerSecond: BITS_PER_SECOND, sketchy: true,
  };
}

export const PRACTICE_CLIPS: readonly Clip[] = EMPHASES.map((_, k) => clipOf(k));
