/** The families of residuals by name, in the order in which they are gathered; the fit and its cost breakdown read this list. */
import type { Figure } from '../figure.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Problem } from '../problem.ts';
import { balanceRows } from './balance.ts';
import { bendRows } from './bend.ts';
import { floorRows, plantedRows } from './contact.ts';
import { elbowAngleRows } from './elbowAngle.ts';
import { elbowHingeRows, hipBackRows, kneeRows } from './hinges.ts';
import { handSetRows } from './handSet.ts';
import { imageRows } from './image.ts';
import { imageStepRows } from './imageStep.ts';
import { lengthRows } from './lengths.ts';
import { smoothRows } from './smooth.ts';
import { hangingRows, straightRows } from './straight.ts';
import { takeRows } from './take.ts';
import { twistRows, uprightRows } from './upright.ts';
import { worldDepthRows } from './worldDepth.ts';

export type Family = (problem: Problem, figure: Figure, rows: NormalEquations) => void;

export const FAMILIES = {
  image: imageRows, imageStep: imageStepRows, worldDepth: worldDepthRows, elbowAngle: elbowAngleRows, bend: bendRows, lengths: lengthRows,
  straight: straightRows, hanging: hangingRows, knee: kneeRows, hipBack: hipBackRows, elbowHinge: elbowHingeRows,
  upright: uprightRows, twist: twistRows, balance: balanceRows, planted: plantedRows, floor: floorRows,
  smooth: smoothRows, take: takeRows, handSet: handSetRows,
} as const satisfies Record<string, Family>;

export type FamilyName = keyof typeof FAMILIES;
export const FAMILY_NAMES = Object.keys(FAMILIES) as readonly FamilyName[];
