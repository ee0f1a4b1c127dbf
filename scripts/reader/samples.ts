/**
 * What the reader is taught with: for both halves of every frame of a posed clip the features, and what the truth says it should have read.
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { inputCount, writeInputs, type Group } from '../../src/motion/fit/reader/groups.ts';
import { SIGHT_SIZE, writeSight } from '../../src/motion/fit/reader/sight.ts';
import { OUTPUT_COUNT } from '../../src/motion/fit/reader/readTrack.ts';
import { tellsHalf } from '../../src/motion/fit/reader/readers.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../src/pose/landmarks.ts';
import type { ModelSize, Track } from '../../src/pose/track.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';
import { hasTrack, poseMissing, trackPath } from '../accuracy/cachedTrack.ts';
import { placeTruth, projectPx } from '../accuracy/truthBody.ts';
import { readTruth, type Truth } from '../accuracy/truthFile.ts';
import { clipFolder } from '../clips/clipFolder.ts';
import { PRACTICE_CLIPS } from '../clips/practiceClips.ts';
import { add, dot, sub, unit, type Vec3 } from '../clips/motion/rotation.ts';

/** N samples: inputs and what is wanted, each N equal rows. */
export interface Samples {
  readonly count: number;
  readonly inputs: Float64Array;
  readonly wanted: Float64Array;
}

const JOINTS = ['Shoulder', 'Elbow', 'Wrist', 'Hip', 'Knee', 'Ankle'] as const;
type Half = 'left' | 'right';

/** Poses the practice clips that are there and have no track of this model yet. */
export async function posePractice(model: ModelSize): Promise<void> {
  const clips = PRACTICE_CLIPS.map(({ name, ...clip }) => ({ name, clip: join(clipFolder(clip), `${name}.webm`) }));
  await poseMissing(clips.filter(({ clip }) => existsSync(clip)), model);
}

/** Samples of the practice clips that have been posed, and their names. */
export function practiceSamples(model: ModelSize): readonly { readonly name: string; readonly samples: Samples }[] {
  return PRACTICE_CLIPS.flatMap((clip) => {
    const path = join(clipFolder(clip), `${clip.name}.webm`);
    if (!existsSync(path) || !hasTrack(path, clip.name, model)) return [];
    const track = trackFromJson(JSON.parse(readFileSync(trackPath(path, clip.name, model), 'utf8')));
    return [{ name: clip.name, samples: samplesOf(readTruth(path.replace(/\.webm$/, '.truth.json')), track, tellsHalf(model)) }];
  });
}

/** Samples of one clip. */
export function samplesOf(truth: Truth, track: Track, tells: boolean): Samples {
  const inputs: number[] = [];
  const wanted: number[] = [];
  const x = new Float64Array(SIGHT_SIZE);
  const away = unit(sub(truth.camera.targetM, truth.camera.positionM));
  for (let t = 0; t < truth.frames; t++) {
    if (track.found[t] !== 1) continue;
    const body = placeTruth(truth, t);
    for (const half of ['left', 'right'] as const) {
      const pxPerM = writeSight(track, t, half === 'right', tells, x);
      inputs.push(...x);
      const at = (joint: string): Vec3 => body(joint).position;
      wanted.push(...shiftsOf(truth, track, t, half, at, pxPerM), ...leansOf(half, at, away), ...bendsOf(half, at));
    }
  }
  return { count: inputs.length / SIGHT_SIZE, inputs: Float64Array.from(inputs), wanted: Float64Array.from(wanted) };
}

/** True joint less landmark, metres of the model's body. */
function shiftsOf(truth: Truth, track: Track, t: number, half: Half, at: (joint: string) => Vec3, pxPerM: number): number[] {
  const flip = half === 'right' ? -1 : 1;
  const byWidth = track.widthPx / truth.widthPx;
  return JOINTS.flatMap((joint) => {
    const i = (t * LANDMARK_COUNT + LANDMARK[`${half}${joint}` as LandmarkName]) * 3;
    const [px, py] = projectPx(truth, at(`${half}${joint}`));
    return [flip * (px * byWidth - track.image[i]! * track.widthPx) / pxPerM, (py * byWidth - track.image[i + 1]! * track.heightPx) / pxPerM];
  });
}

/** Depth of the unit directions, in the order of the reader's leans. */
function leansOf(half: Half, at: (joint: string) => Vec3, away: Vec3): number[] {
  const other = half === 'left' ? 'right' : 'left';
  const deep = (v: Vec3): number => dot(unit(v), away);
  const bone = (from: string, to: string): number => deep(sub(at(`${half}${to}`), at(`${half}${from}`)));
  const line = (joint: string): Vec3 => sub(at(`${half}${joint}`), at(`${other}${joint}`));
  const spine = sub(add(at('leftShoulder'), at('rightShoulder')), add(at('leftHip'), at('rightHip')));
  return [bone('Shoulder', 'Elbow'), bone('Elbow', 'Wrist'), bone('Hip', 'Knee'), bone('Knee', 'Ankle'), deep(line('Hip')), deep(spine), deep(line('Shoulder'))];
}

/** Flexion of elbow and knee, radians, in the order of the reader's bends. */
function bendsOf(half: Half, at: (joint: string) => Vec3): number[] {
  return [['Shoulder', 'Elbow', 'Wrist'], ['Hip', 'Knee', 'Ankle']].map(([from, by, to]) => {
    const cos = dot(unit(sub(at(`${half}${by}`), at(`${half}${from}`))), unit(sub(at(`${half}${to}`), at(`${half}${by}`))));
    return Math.acos(Math.min(1, Math.max(-1, cos)));
  });
}

/** What concerns one group alone. */
export function ofGroup(group: Group, { count, inputs, wanted }: Samples): Samples {
  const width = inputCount(group);
  const some = new Float64Array(count * width);
  for (let n = 0; n < count; n++) writeInputs(group, inputs.subarray(n * SIGHT_SIZE, (n + 1) * SIGHT_SIZE), some.subarray(n * width, (n + 1) * width));
  return { count, inputs: some, wanted: Float64Array.from({ length: count * group.outputs.length }, (_, i) =>
    wanted[Math.floor(i / group.outputs.length) * OUTPUT_COUNT + group.outputs[i % group.outputs.length]!]!) };
}

/** Several lots as one. */
export function together(lots: readonly Samples[]): Samples {
  const count = lots.reduce((sum, lot) => sum + lot.count, 0);
  const inputs = new Float64Array(count * SIGHT_SIZE);
  const wanted = new Float64Array(count * OUTPUT_COUNT);
  let at = 0;
  for (const lot of lots) {
    inputs.set(lot.inputs, at * SIGHT_SIZE);
    wanted.set(lot.wanted, at * OUTPUT_COUNT);
    at += lot.count;
  }
  return { count, inputs, wanted };
}
