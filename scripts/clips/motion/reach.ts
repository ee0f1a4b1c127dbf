// Keeps the pelvis low enough for both feet: a body cannot rise above what its legs reach.
import type { Body } from './body.ts';
import type { Channels } from './pose.ts';
import { aboutX, aboutY, aboutZ, chain, turn } from './rotation.ts';
import { signOf, SIDES } from './skeleton.ts';

/** A leg stretched to this share of its length has about 6 degrees of knee flexion left. */
const STRETCH = 0.9985;
/** The limit is eased into over this height (m), so that no joint jerks. */
const EASE_M = 0.008;

/** The same channels with the root lowered where a leg would be too short. */
export function withinReach(body: Body, c: Channels): Channels {
  const leg = (body.hipHeight - body.ankleHeight) * STRETCH;
  const pelvis = chain(aboutY(c.pelvisYaw), aboutX(c.pelvisLean), aboutZ(-c.pelvisPitch));
  let height = c.root[1];
  for (const side of SIDES) {
    const hip = turn(pelvis, [0, 0, signOf(side) * body.hipHalf]);
    const ankle = c.feet[side].ankle;
    const across = Math.hypot(c.root[0] + hip[0] - ankle[0], c.root[2] + hip[2] - ankle[2]);
    const highest = ankle[1] + Math.sqrt(Math.max(0, leg * leg - across * across)) - hip[1];
    height = softMin(height, highest);
  }
  return { ...c, root: [c.root[0], height, c.root[2]] };
}

/** At most the smaller of a and b, smooth where they meet. */
function softMin(a: number, b: number): number {
  const h = Math.max(EASE_M - Math.abs(a - b), 0) / EASE_M;
  return Math.min(a, b) - (h * h * EASE_M) / 4;
}
