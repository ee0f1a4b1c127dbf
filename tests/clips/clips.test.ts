/** The clips that are made on demand: what their truth promises holds, and the halves are what the docs say. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectPx } from '../../scripts/accuracy/truthBody.ts';
import type { Truth } from '../../scripts/accuracy/truthFile.ts';
import { FPS, frameCount, frameTime, shutterTimes, type Clip } from '../../scripts/clips/clip.ts';
import { project } from '../../scripts/clips/camera.ts';
import { clipNamed, CLIPS, clipsToMake } from '../../scripts/clips/clips.ts';
import { poseFrom } from '../../scripts/clips/motion/pose.ts';
import { length, sub, turn, type Vec3 } from '../../scripts/clips/motion/rotation.ts';
import { placeJoints, SIDES, type Joint, type Placed } from '../../scripts/clips/motion/skeleton.ts';
import { truthOf } from '../../scripts/clips/truth.ts';
import { PROJECT_FOLDER } from '../../scripts/serve/projectFolder.ts';

const placedAt = (clip: Clip, frame: number): Record<Joint, Placed> =>
  placeJoints(clip.body, poseFrom(clip.body, clip.action.channels(clip.body, frameTime(frame))));
const frames = (clip: Clip): readonly number[] => Array.from({ length: frameCount(clip) }, (_, i) => i);
const channels = (clip: Clip, frame: number): ReturnType<Clip['action']['channels']> => clip.action.channels(clip.body, frameTime(frame));
const kind = (clip: Clip): string => clip.name.slice(0, clip.name.lastIndexOf('-'));

describe('the list of clips', () => {
  const made = clipsToMake('all');

  it('has the same kinds of action in both halves, each with another body, camera and outfit', () => {
    const [tuning, reporting] = [clipsToMake('tuning'), clipsToMake('reporting')];
    expect(tuning.length).toBeGreaterThanOrEqual(8);
    // A kind may be tried twice in the tuning half, never in the one that reports.
    expect(new Set(tuning.map(kind))).toEqual(new Set(reporting.map(kind)));
    expect(new Set(reporting.map(kind)).size).toBe(reporting.length);
    for (const clip of tuning) {
      const twin = reporting.find((other) => kind(other) === kind(clip))!;
      expect(twin.body.name, kind(clip)).not.toBe(clip.body.name);
      expect(twin.outfit.name, kind(clip)).not.toBe(clip.outfit.name);
      expect(twin.shot.azimuthDeg, kind(clip)).not.toBe(clip.shot.azimuthDeg);
    }
    for (const half of [tuning, reporting]) {
      expect(new Set(half.map(({ body }) => body.name)).size).toBe(3);
      expect(new Set(half.map(({ outfit }) => outfit.name)).size).toBeGreaterThanOrEqual(4);
      expect(half.filter(({ blurSubFrames }) => blurSubFrames !== undefined)).toHaveLength(2);
      expect(half.filter(({ shot }) => (shot.rollDeg ?? 0) !== 0)).toHaveLength(1);
    }
    expect(Math.min(...made.map(({ shot }) => shot.azimuthDeg))).toBe(-50);
    expect(Math.max(...made.map(({ shot }) => shot.azimuthDeg))).toBe(80);
    expect(new Set(CLIPS.map(({ name }) => name)).size).toBe(CLIPS.length);
  });

  it('counts the committed clips to the tuning half, and leaves their truth as it was, byte for byte', () => {
    const kept = CLIPS.filter(({ committed }) => committed);
    expect(kept.map(({ set }) => set)).toEqual(['tuning', 'tuning', 'tuning', 'tuning']);
    for (const clip of kept) {
      const there = readFileSync(join(PROJECT_FOLDER, 'reference-clips', `${clip.name}.truth.json`), 'utf8');
      expect(`${JSON.stringify(truthOf(clip))}\n` === there, clip.name).toBe(true);
    }
  });

  it('says what there is when asked for what there is not', () => {
    expect(() => clipsToMake('training')).toThrow(/tuning, reporting, all/);
    expect(() => clipNamed('somersault')).toThrow(/sit-marla/);
  });
});

describe.each(clipsToMake('all').map((clip) => [clip.name, clip] as const))('%s', (_, clip) => {
  it('keeps a flat foot on the floor where it is, and no foot under the floor', () => {
    for (const side of SIDES) {
      let before: { at: Vec3; flat: boolean } | undefined;
      for (const frame of frames(clip)) {
        const foot = channels(clip, frame).feet[side];
        const ankle = placedAt(clip, frame)[`${side}Ankle`];
        const flat = foot.onFloor && Math.abs(foot.pitch) < 1e-6;
        // Straight from the channels: the solver of the legs must bring the ankle there. 0.1 mm.
        expect(length(sub(ankle.position, foot.ankle))).toBeLessThan(1e-4);
        // Within a millimetre a foot that is being lifted counts as on the floor.
        if (flat && before?.flat === true) expect(length(sub(ankle.position, before.at))).toBeLessThan(0.0011);
        for (const [x, y] of [[clip.body.ankleToBall, -clip.body.ankleHeight], [-clip.body.ankleToHeel, -clip.body.ankleHeight]] as const) {
          const sole = ankle.position[1] + turn(ankle.rotation, [x, y, 0])[1];
          // Lifted feet dip by some millimetres at the ball of the stiff foot, where the drawn toes bend up.
          expect(sole, `${side} ${frame}`).toBeGreaterThan(flat ? -0.0001 : -0.01);
        }
        before = { at: ankle.position, flat };
      }
    }
  });

  it('sees the whole body in every frame, and moves no joint faster than a person can', () => {
    let before: Record<Joint, Placed> | undefined;
    for (const frame of frames(clip)) {
      const placed = placedAt(clip, frame);
      for (const [joint, { position }] of Object.entries(placed)) {
        const [x, y] = project(clip.shot, position);
        // A hand's breadth to the picture's edge: 20 px.
        expect(x > 20 && x < clip.shot.widthPx - 20 && y > 20 && y < clip.shot.heightPx - 8, `${joint} at ${x.toFixed(0)}, ${y.toFixed(0)} in frame ${frame}`).toBe(true);
        // Hands swung in a jump reach some 10 m/s (a hard throw is far above; from memory).
        if (before !== undefined) expect(length(sub(position, before[joint as Joint].position)) * FPS, `${joint} ${frame}`).toBeLessThan(10);
      }
      before = placed;
    }
  });
});

describe('what bears weight', () => {
  const supported = (name: string, part: 'leftKnee' | 'rightKnee' | 'seat'): { clip: Clip; on: readonly number[] } => {
    const clip = clipNamed(name);
    return { clip, on: frames(clip).filter((frame) => channels(clip, frame).support?.[part] === true) };
  };

  it.each([['kneel-torben', 'rightKnee'], ['kneel-marla', 'leftKnee']] as const)('%s: the knee lies on the floor and stays', (name, part) => {
    const { clip, on } = supported(name, part);
    // A second and more.
    expect(on.length).toBeGreaterThan(30);
    const at = on.map((frame) => placedAt(clip, frame)[part].position);
    for (const p of at) {
      // Half a knee's thickness over the floor, to a millimetre; the knee moves less than that.
      expect(Math.abs(p[1] - 0.062 * clip.body.limbGirth)).toBeLessThan(0.001);
      expect(length(sub(p, at.at(-1)!))).toBeLessThan(0.001);
    }
  });

  it.each(['sit-marla', 'sit-torben'])('%s: the hips stay over the stool', (name) => {
    const { clip, on } = supported(name, 'seat');
    expect(on.length).toBeGreaterThan(20);
    const at = on.map((frame) => placedAt(clip, frame).pelvis.position);
    for (const p of at) expect(length(sub(p, at[0]!))).toBeLessThan(0.001);
    const stool = clip.room.furniture![0]!;
    expect(Math.abs(at[0]![0] - stool.at[0])).toBeLessThan(stool.depthM / 2);
    expect(at[0]![1]).toBeGreaterThan(stool.topM);
  });

  it.each(['jump-torben', 'jump-odile'])('%s: in the air the hips fall as everything falls', (name) => {
    const clip = clipNamed(name);
    const air = frames(clip).filter((frame) => !channels(clip, frame).feet.left.onFloor);
    expect(air.length).toBeGreaterThan(8);
    const y = (frame: number): number => channels(clip, frame).root[1];
    // Beside the floor the reach of the legs still holds the hips back a little.
    for (const frame of air.slice(3, -3)) {
      const fall = (y(frame + 1) - 2 * y(frame) + y(frame - 1)) * FPS * FPS;
      // The second difference of a parabola is exact.
      expect(fall).toBeCloseTo(-9.81, 6);
    }
  });
});

describe('the slate pose', () => {
  it.each(['slate-marla', 'slate-torben'])('%s: a second of straight limbs, then square elbows', (name) => {
    const { joints } = truthOf(clipNamed(name)) as unknown as Truth;
    const hinge = (joint: string, frame: number): number => {
      const told = joints[joint]!;
      return told.kind === 'hinge' ? told.flexionDeg[frame]! : Number.NaN;
    };
    for (const side of SIDES) {
      for (let frame = 0; frame <= FPS; frame += 1) {
        // Straight as people call it: legs to 4 degrees, arms to 2.
        expect(hinge(`${side}Knee`, frame)).toBeLessThan(4);
        expect(hinge(`${side}Elbow`, frame)).toBeLessThan(2);
      }
      for (let frame = Math.ceil(1.45 * FPS); frame <= 2.05 * FPS; frame += 1) expect(hinge(`${side}Elbow`, frame)).toBeCloseTo(90, 1);
    }
  });
});

describe('camera and shutter', () => {
  it('rolls the picture about its middle, the same for renderer, truth and accuracy', () => {
    const { shot, body } = clipNamed('kneel-marla');
    expect(shot.rollDeg).toBe(6);
    const truth = truthOf(clipNamed('kneel-marla')) as unknown as Truth;
    const point: Vec3 = [0.2, body.hipHeight, -0.3];
    const [x, y] = project(shot, point);
    const [tx, ty] = projectPx(truth, point);
    expect([tx, ty].map((v) => v.toFixed(1))).toEqual([x, y].map((v) => v.toFixed(1)));
    // Upright things lean to the left in the picture of a camera that is turned clockwise as seen from behind.
    const [level] = project({ ...shot, rollDeg: 0 }, [0, 1.8, 0]);
    expect(project(shot, [0, 1.8, 0])[0]).toBeLessThan(level);
  });

  it('centres the moments of a blurred frame on its time, over half the frame', () => {
    const times = shutterTimes(clipNamed('jump-torben'), 30);
    expect(times).toHaveLength(4);
    expect(times.reduce((a, b) => a + b, 0) / 4).toBeCloseTo(1, 12);
    // Four moments in the middles of four equal parts of a 60th of a second.
    expect(times[3]! - times[0]!).toBeCloseTo(0.75 / 60, 12);
    expect(shutterTimes(clipNamed('sit-marla'), 30)).toEqual([1]);
  });
});
