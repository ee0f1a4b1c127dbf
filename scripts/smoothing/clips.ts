/**
 * What smoothing does to the error against the truth of rendered clips: the landmarks alone and the fitted body, over all
 * ways of smoothing.
 */
import { prepareTrack } from '../../src/motion/prepareTrack.ts';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { motionOf } from '../../src/motion/trackToMotion.ts';
import type { ModelSize } from '../../src/pose/track.ts';
import { ANGLE_NAMES, type AngleName, bodyAngles } from '../accuracy/bodyAngles.ts';
import { cachedTrack, hasTrack } from '../accuracy/cachedTrack.ts';
import { clipFiles } from '../accuracy/clipFiles.ts';
import { requireSameFrames } from '../accuracy/compareClip.ts';
import { segmentsOfMotion } from '../accuracy/motionBody.ts';
import { placeTruth, segmentsOfTruth } from '../accuracy/truthBody.ts';
import { readTruth } from '../accuracy/truthFile.ts';
import type { Way } from './elbow.ts';

/** Elbows, knees, shoulders, hips: what the landmarks show and the fit carries. */
const LIMBS = ANGLE_NAMES.filter((name) => /Elbow|Knee|Shoulder|Hip/.test(name));
/** A frame is in a hold when no angle of limbs and trunk moves farther than this within {@link HOLD_FRAMES} on both sides, degrees. */
const HOLD_DEG = 0.3;
const HOLD_FRAMES = 4;

/** Of all clips' limb angles, degrees. */
export interface ClipFigures {
  readonly rmseDeg: number;
  /** Median of the clips' own RMS errors: two clips of legs behind a table would otherwise drown the rest. */
  readonly medianRmseDeg: number;
  /** RMS of the second difference over √6 in holds, told by its median. */
  readonly jitterDeg: number;
}

/** Figures of each way, in the order given; landmarks alone (`raw`) and fitted. `clips` names those that were there. */
export interface ClipTable {
  readonly clips: readonly string[];
  readonly raw: readonly ClipFigures[];
  readonly fitted: readonly ClipFigures[];
}

class Sums {
  private squares = 0;
  private count = 0;
  private readonly clips: { squares: number; count: number }[] = [];
  private readonly bends: number[] = [];

  beginClip(): void {
    this.clips.push({ squares: 0, count: 0 });
  }

  add(error: number): void {
    const clip = this.clips.at(-1);
    if (!Number.isFinite(error) || clip === undefined) return;
    this.squares += error * error;
    this.count += 1;
    clip.squares += error * error;
    clip.count += 1;
  }

  addBend(bend: number): void {
    if (Number.isFinite(bend)) this.bends.push(Math.abs(bend) / Math.sqrt(6));
  }

  figures(): ClipFigures {
    const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;
    return {
      rmseDeg: Math.sqrt(this.squares / this.count),
      medianRmseDeg: median(this.clips.map(({ squares, count }) => Math.sqrt(squares / count))),
      // the median of |x| of a normal x is 0.6745 of its RMS
      jitterDeg: median(this.bends) / 0.6745,
    };
  }
}

/** @param say told each clip's name as it is begun */
export async function clipTable(ways: readonly Way[], model: ModelSize, say: (line: string) => void): Promise<ClipTable> {
  const clips: string[] = [];
  const raw = ways.map(() => new Sums());
  const fitted = ways.map(() => new Sums());
  for (const file of clipFiles().there) {
    if (!hasTrack(file.clip, file.name, model)) continue;
    say(file.name);
    clips.push(file.name);
    const track = await cachedTrack(file.clip, file.name, model);
    const truth = readTruth(file.truth);
    requireSameFrames(truth, track);
    const told = truth.timesS.map((_, frame) => bodyAngles(segmentsOfTruth(placeTruth(truth, frame))));
    const held = holdFrames(told);
    for (const [body, sums] of [[null, raw], [fitTake(track, 1), fitted]] as const) {
      const prepared = prepareTrack(track, 1, false, body);
      ways.forEach(({ smoother, cutoffHz }, w) => {
        sums[w]!.beginClip();
        const motion = motionOf(prepared, cutoffHz, smoother);
        const read = truth.timesS.map((_, frame) => bodyAngles(segmentsOfMotion(motion, frame)));
        for (const name of LIMBS) {
          read.forEach((angles, frame) => {
            sums[w]!.add(angles[name] - told[frame]![name]);
            if (held[frame]) sums[w]!.addBend(read[frame + 1]![name] - 2 * angles[name] + read[frame - 1]![name]);
          });
        }
      });
    }
  }
  return { clips, raw: raw.map((sums) => sums.figures()), fitted: fitted.map((sums) => sums.figures()) };
}

function holdFrames(told: readonly Readonly<Record<AngleName, number>>[]): boolean[] {
  const last = told.length - 1;
  return told.map((here, frame) => {
    if (frame === 0 || frame === last) return false;
    for (let i = Math.max(0, frame - HOLD_FRAMES); i <= Math.min(last, frame + HOLD_FRAMES); i++) {
      for (const name of [...LIMBS, 'trunk' as const]) if (Math.abs(told[i]![name] - here[name]) > HOLD_DEG) return false;
    }
    return true;
  });
}
