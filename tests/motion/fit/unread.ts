/** Fits of drawn takes: no pose model made their landmarks, so no reader of one may look at them. */
import { createFitter, type Fitter } from '../../../src/motion/fit/fitTake.ts';

export const unreadFitter = (): Fitter => createFitter(() => null);

/** As `fitTake`, unread. */
export const fitUnread: Fitter['fit'] = (...asked) => unreadFitter().fit(...asked);
