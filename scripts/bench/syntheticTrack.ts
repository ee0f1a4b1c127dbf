/**
 * A long track that no camera has to be run for: a body that stands, sways, waves and squats, with a little noise and a few gaps,
 * so that every stage of the planner has its real work to do. Repeatable to the bit.
 */
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../src/pose/landmarks.ts';
import { emptyTrack, type Track } from '../../src/pose/track.ts';

/** Metres from mid-hip on the performer's left half: x to the right of the picture, y down, z away from the camera. */
const LEFT_HALF: Readonly<Record<string, readonly [number, number, number]>> = {
  EyeInner: [0.02, -0.68, -0.12], Eye: [0.035, -0.685, -0.11], EyeOuter: [0.05, -0.68, -0.1], Ear: [0.075, -0.66, 0],
  Mouth: [0.03, -0.62, -0.11], Shoulder: [0.175, -0.5, 0], Elbow: [0.2, -0.22, 0.02], Wrist: [0.21, 0.03, -0.03],
  Pinky: [0.22, 0.1, -0.04], Index: [0.2, 0.11, -0.05], Thumb: [0.19, 0.08, -0.05],
  Hip: [0.09, 0, 0], Knee: [0.1, 0.42, -0.02], Ankle: [0.1, 0.83, 0.02], Heel: [0.1, 0.87, 0.06], FootIndex: [0.12, 0.88, -0.1],
};
const ARM = ['Elbow', 'Wrist', 'Pinky', 'Index', 'Thumb'];
const TRUNK_AND_HEAD = ['EyeInner', 'Eye', 'EyeOuter', 'Ear', 'Mouth', 'Shoulder', ...ARM];

/** In the middle of every so many frames nobody is found for a few: a gap that is bridged. */
const GAP_EVERY = 600;
const GAP_FRAMES = 5;

/** 0..1, the same for the same number; the fractional part of a sine is chance enough for noise. */
const chance = (k: number): number => {
  const v = Math.sin(k * 12.9898) * 43758.5453;
  return v - Math.floor(v);
};

/** Part of a landmark's name that is the same on both sides, and its side (+1 left, -1 right, 0 the nose). */
function halfOf(name: LandmarkName): readonly [part: string, side: 1 | -1 | 0] {
  if (name === 'nose') return ['nose', 0];
  const side = /left/i.test(name) ? 1 : -1;
  const part = name.replace(/left|right/i, '');
  return [part.charAt(0).toUpperCase() + part.slice(1), side];
}

function place(name: LandmarkName, timeS: number): readonly [number, number, number] {
  const [part, side] = halfOf(name);
  const [x0, y0, z0] = part === 'nose' ? [0, -0.65, -0.14] : LEFT_HALF[part]!;
  let [x, y, z] = [x0 * (side === 0 ? 1 : side), y0, z0];
  const squat = 0.5 - 0.5 * Math.cos(timeS * 1.3);
  if (part === 'Knee') [y, z] = [y - 0.12 * squat, z - 0.25 * squat];
  if (part === 'Ankle' || part === 'Heel' || part === 'FootIndex') y -= 0.3 * squat;
  if (ARM.includes(part)) {
    // Turned about the shoulder in the picture's plane, each arm at its own pace.
    const turn = (0.9 - 0.9 * Math.cos(timeS * (side === 1 ? 1.7 : 2.3))) * -side;
    const [sx, sy] = [0.175 * side, -0.5];
    const [dx, dy] = [x - sx, y - sy];
    [x, y] = [sx + dx * Math.cos(turn) - dy * Math.sin(turn), sy + dx * Math.sin(turn) + dy * Math.cos(turn)];
  }
  if (part === 'nose' || TRUNK_AND_HEAD.includes(part)) {
    const lean = 0.15 * Math.sin(timeS * 0.9);
    [x, z] = [x - y * lean * 0.5, z + y * lean];
  }
  return [x, y, z];
}

/**
 * @param durationS length
 * @param fps frames a second, constant
 */
export function syntheticTrack(durationS: number, fps: number): Track {
  const frames = Math.round(durationS * fps);
  const track = emptyTrack('full', 1080, 1920, Float64Array.from({ length: frames }, (_, i) => i / fps));
  const names = Object.keys(LANDMARK) as LandmarkName[];
  for (let frame = 0; frame < frames; frame += 1) {
    const fromMiddle = (frame % GAP_EVERY) - GAP_EVERY / 2;
    if (fromMiddle >= 0 && fromMiddle < GAP_FRAMES) continue;
    track.found[frame] = 1;
    for (const name of names) {
      const index = frame * LANDMARK_COUNT + LANDMARK[name];
      // 4 mm of noise, about what the model trembles.
      const point = place(name, frame / fps).map((v, axis) => v + 0.008 * (chance(index * 3 + axis) - 0.5));
      track.world.set(point, index * 3);
      track.image.set([0.5 + point[0]! * 0.45, 0.5 + point[1]! * 0.25, point[2]! * 0.45], index * 3);
      track.visibility[index] = 0.9;
    }
  }
  return track;
}
