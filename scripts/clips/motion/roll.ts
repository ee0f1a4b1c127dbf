// A foot that rolls over its ball or its heel without sliding.
import type { Body } from './body.ts';
import { pivoted } from './gait.ts';
import type { Channels, FootChannels } from './pose.ts';
import type { Side } from './skeleton.ts';

/** In the air the toes go back into line with the foot over this height (m). */
const TOES_STRAIGHT_M = 0.06;

/**
 * Takes the foot's place as that of the flat foot and turns it by its pitch about the ball (heel up) or the heel (toes up),
 * so that the point that touches the floor stays where it is.
 */
export function rolled(body: Body, side: Side, foot: FootChannels): FootChannels {
  const pivot = foot.pitch < 0 ? body.ankleToBall : -body.ankleToHeel;
  const lifted = Math.min(1, Math.max(0, (foot.ankle[1] - body.ankleHeight) / TOES_STRAIGHT_M));
  return pivoted(side, { ...foot, pitch: 0 }, foot.pitch, [pivot, -body.ankleHeight, 0], -foot.pitch * (1 - lifted));
}

/** Both feet rolled. */
export const rolledFeet = (body: Body, c: Channels): Channels => ({
  ...c, feet: { left: rolled(body, 'left', c.feet.left), right: rolled(body, 'right', c.feet.right) },
});
