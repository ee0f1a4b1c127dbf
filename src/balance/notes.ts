/** What stands in the way of a verdict, in sentences with a way out. */
import type { CompleteArmature } from '../puppet/complete.ts';
import type { PoiseSettings } from './poiseSettings.ts';

export const NOTES = {
  noWeight: 'The puppet weighs nothing: give its bones or the whole of it a weight on the Puppet screen.',
  noSole: 'The puppet has no sole to stand on: give a foot its outline on the Puppet screen, or say which bone touches the set.',
  nothingStands: 'The take tells of no foot that stands, so nothing can be said about balance: fit the body, or say which foot stands.',
  hidden: (foot: string, steps: string): string => `${foot} was hidden in ${steps}, and without it the puppet would not stand: say whether it touches.`,
  low: (bone: string, steps: string): string => `${bone} comes down to the floor in ${steps}: say whether it touches.`,
  edgeless: (steps: string): string => `What touches in ${steps} has no area to stand on: give the sole an outline with a width.`,
  lifted: (steps: string): string => `A foot is tied down in ${steps} where it does not touch: there the tie-down holds nothing.`,
  grounded: (steps: string): string => `Nothing is said to touch in ${steps}, yet the body hardly rises or falls: say which foot stands.`,
  noBody: 'No body was fitted to the take, so the performer’s own centre of mass is not known.',
} as const;

/** What of the settings does not fit this puppet, and what is missing from the take. */
export function notesOf({ bones }: CompleteArmature, fitted: boolean, { props, touches, tieDowns }: PoiseSettings): string[] {
  const has = (name: string): boolean => bones.some((bone) => bone.name === name);
  const notes = [
    ...props.filter(({ bone }) => !has(bone)).map(({ name, bone }) => `The prop ${name} is carried by ${bone}, which this puppet does not have; it weighs nothing.`),
    ...touches.filter(({ bone }) => !has(bone)).map(({ bone }) => `${bone} was said to touch or not, and this puppet does not have it.`),
    ...tieDowns.filter(({ foot }) => !has(foot)).map(({ foot }) => `${foot} was tied down, and this puppet does not have it.`),
    ...tieDowns.filter(({ foot }) => bones.some(({ name, sole }) => name === foot && sole === null)).map(({ foot }) => `${foot} was tied down and has no sole; it holds nothing.`),
    ...(fitted ? [] : [NOTES.noBody]),
  ];
  return [...new Set(notes)];
}

/** Steps, from 0, as people read them, from 1: "step 4", "steps 4 to 9", "12 steps from 4 to 30". */
export function stepsText(steps: readonly number[]): string {
  const [first, last] = [steps[0]!, steps.at(-1)!];
  return steps.length === last - first + 1 ? spanText(first, last) : `${steps.length} steps from ${first + 1} to ${last + 1}`;
}

/** A while, both steps from 0 and included. */
export function spanText(fromStep: number, toStep: number): string {
  return fromStep === toStep ? `step ${fromStep + 1}` : `steps ${fromStep + 1} to ${toStep + 1}`;
}
