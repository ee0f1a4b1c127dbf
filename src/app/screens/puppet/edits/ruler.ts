/**
 * A whole armature from a few lengths taken with a ruler. What is not measured follows the proportions of the standard figure,
 * at the scale of the leg, and is marked as not measured in the document.
 */
import type { Armature } from '../../../../puppet/armature.ts';
import { humanBody, type HumanMeasures, PROPORTIONS } from '../../../../puppet/humanBody.ts';

/** Millimetres and grams; `null`: not measured. */
export interface RulerMeasures {
  /** From the hip joint to the floor. */
  readonly legMm: number;
  /** From the shoulder joint to the fingertips. */
  readonly armMm: number;
  /** From the hip joints up to the shoulders. */
  readonly trunkMm: number | null;
  /** From the shoulders up to the crown. */
  readonly headMm: number | null;
  /** Between the shoulder joints. */
  readonly shouldersMm: number | null;
  /** Between the hip joints. */
  readonly hipsMm: number | null;
  /** From the ankle joint forward to the toes. */
  readonly footMm: number | null;
  /** The whole puppet. */
  readonly weightG: number | null;
}

/** What each optional length comes to for a leg so long, mm. */
export function rulerDefaults(legMm: number): Readonly<Record<'trunkMm' | 'headMm' | 'shouldersMm' | 'hipsMm' | 'footMm', number>> {
  const k = legMm / legOf(PROPORTIONS);
  const { pelvis, abdomen, chest, neck, head, shoulderHalf, hipHalf, foot } = PROPORTIONS;
  return {
    trunkMm: round(k * (pelvis + abdomen + chest)), headMm: round(k * (neck + head)),
    shouldersMm: round(2 * k * shoulderHalf), hipsMm: round(2 * k * hipHalf), footMm: round(k * foot),
  };
}

function legOf(m: HumanMeasures): number {
  return m.thigh + m.shank + m.ankleHeight;
}

function round(mm: number): number {
  return Math.round(mm * 10) / 10;
}

/** Shares of a whole by proportion, to a hundredth of a millimetre, that add up to the whole exactly as typed. */
function shared(wholeMm: number, shares: readonly number[]): number[] {
  const sum = shares.reduce((a, b) => a + b, 0);
  const parts = shares.map((share) => Math.round((share / sum) * wholeMm * 100) / 100);
  parts[0] = Math.round((wholeMm - parts.slice(1).reduce((a, b) => a + b, 0)) * 100) / 100;
  return parts;
}

/** The armature; bones whose own length was not measured say so. */
export function rulerArmature(name: string, measures: RulerMeasures): Armature {
  const by = rulerDefaults(measures.legMm);
  const p = PROPORTIONS;
  const [thigh, shank, ankleHeight] = shared(measures.legMm, [p.thigh, p.shank, p.ankleHeight]);
  const [upperArm, forearm, hand] = shared(measures.armMm, [p.upperArm, p.forearm, p.hand]);
  const [pelvis, abdomen, chest] = shared(measures.trunkMm ?? by.trunkMm, [p.pelvis, p.abdomen, p.chest]);
  const [head, neck] = shared(measures.headMm ?? by.headMm, [p.head, p.neck]);
  const body = humanBody({
    pelvis: pelvis!, abdomen: abdomen!, chest: chest!, neck: neck!, head: head!, upperArm: upperArm!, forearm: forearm!, hand: hand!,
    thigh: thigh!, shank: shank!, ankleHeight: ankleHeight!, foot: measures.footMm ?? by.footMm,
    shoulderHalf: (measures.shouldersMm ?? by.shouldersMm) / 2, hipHalf: (measures.hipsMm ?? by.hipsMm) / 2,
  }, false);
  const measured = (bone: string): boolean => /Foot$/.test(bone) && measures.footMm !== null;
  return {
    format: 'nudgebook-armature', version: 2, name,
    ...(measures.weightG === null ? {} : { totalMassG: measures.weightG }),
    bones: body.bones.map((bone) => (measured(bone.name) ? bone : { ...bone, lengthFrom: 'proportion' as const })),
    joints: body.joints,
  };
}
