/** What can be put right by hand, by name; only on the Take screen, where it can be seen. */
import { flushSync } from 'react-dom';
import { chooseNext, clearSpan, correcting, flipDepthHere, goToUnsure, markSpan, showSide, swapHere, takeBackHere, turnContactHere } from './correcting.ts';
import type { COMMAND_GROUPS, CommandName } from './commandNames.ts';

type CorrectingCommand = keyof (typeof COMMAND_GROUPS)['Putting right by hand'];

/** Where the angle of the chosen joint is typed. */
export const ANGLE_FIELD = 'joint-angle';

export const CORRECTING_COMMANDS: Readonly<Record<CorrectingCommand, () => void>> = {
  nextJoint: () => chooseNext(1),
  formerJoint: () => chooseNext(-1),
  typeAngle: () => {
    // At once: the figures may follow so quickly that a field that comes a moment later would miss them.
    flushSync(() => {
      showSide('correct');
      if (correcting.getState().chosen === null) chooseNext(1);
    });
    document.querySelector<HTMLInputElement>(`#${ANGLE_FIELD} input`)?.focus();
  },
  takeBackHere,
  turnDepth: flipDepthHere,
  leftFoot: () => turnContactHere('left'),
  rightFoot: () => turnContactHere('right'),
  swapSides: swapHere,
  spanFrom: () => markSpan('fromS'),
  spanTo: () => markSpan('toS'),
  clearSpan,
  nextUnsure: () => goToUnsure(1),
  formerUnsure: () => goToUnsure(-1),
};

export function isCorrectingCommand(name: CommandName): name is CorrectingCommand {
  return name in CORRECTING_COMMANDS;
}
