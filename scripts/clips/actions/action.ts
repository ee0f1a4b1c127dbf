// What an action is: how long, and the channels of a body at any moment of it.
import type { Body } from '../motion/body.ts';
import type { Channels } from '../motion/pose.ts';

export interface Action {
  readonly name: string;
  /** One sentence for the truth file. */
  readonly says: string;
  readonly durationS: number;
  readonly channels: (body: Body, timeS: number) => Channels;
}
