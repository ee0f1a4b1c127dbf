import { describe, expect, it } from 'vitest';
import { mirrorStage, OPPOSITE_LANDMARK, toStage } from '../../src/motion/bodyAxes.ts';
import { LANDMARK, LANDMARK_COUNT, LANDMARK_NAMES } from '../../src/pose/landmarks.ts';
import { emptyTrack } from '../../src/pose/track.ts';
import { trackOf, turnX, turnY } from './figure.ts';

function oneLandmark(world: readonly [number, number, number]): readonly number[] {
  const track = emptyTrack('full', 640, 720, new Float64Array([0]));
  track.world.fill(0).set(world, 0);
  return [...toStage(track, false, null).positionM.slice(0, 3)].map((v) => v + 0);
}

describe('the door', () => {
  it('turns camera axes into stage axes', () => {
    expect(oneLandmark([1, 0, 0])).toEqual([0, 0, -1]); // right of the picture: the performer's left
    expect(oneLandmark([0, 1, 0])).toEqual([0, -1, 0]); // down
    expect(oneLandmark([0, 0, 1])).toEqual([-1, 0, 0]); // away
  });

  it('is a proper rotation: determinant +1', () => {
    const [a, b, c] = [oneLandmark([1, 0, 0]), oneLandmark([0, 1, 0]), oneLandmark([0, 0, 1])];
    const det = a[0]! * (b[1]! * c[2]! - b[2]! * c[1]!) - b[0]! * (a[1]! * c[2]! - a[2]! * c[1]!) + c[0]! * (a[1]! * b[2]! - a[2]! * b[1]!);
    expect(det).toBe(1);
  });

  it('knows the other side of every landmark', () => {
    expect(OPPOSITE_LANDMARK[LANDMARK.nose]).toBe(LANDMARK.nose);
    expect(OPPOSITE_LANDMARK[LANDMARK.mouthLeft]).toBe(LANDMARK.mouthRight);
    expect(OPPOSITE_LANDMARK[LANDMARK.rightFootIndex]).toBe(LANDMARK.leftFootIndex);
    expect(OPPOSITE_LANDMARK.filter((other, l) => other === l)).toHaveLength(1);
    OPPOSITE_LANDMARK.forEach((other, l) => expect(OPPOSITE_LANDMARK[other], LANDMARK_NAMES[l]).toBe(l));
  });

  it('mirrored twice is as it was', () => {
    const stage = toStage(trackOf([{ pelvis: turnY(0.4), rightShoulder: turnX(-1) }, { leftElbow: 1 }], [0, 0.1], { noiseM: 0.02 }), false, null);
    stage.visibility[LANDMARK.leftWrist] = 0.25;
    const twice = mirrorStage(mirrorStage(stage));
    expect(twice.positionM).toEqual(stage.positionM);
    expect(twice.visibility).toEqual(stage.visibility);
    // 1 - (1 - x) rounds in the last digit
    twice.image.forEach((v, k) => expect(Math.abs(v - stage.image[k]!)).toBeLessThan(1e-15));
    const once = mirrorStage(stage);
    expect(once.visibility[LANDMARK.rightWrist]).toBe(0.25);
    expect(once.positionM[LANDMARK.rightElbow * 3 + 2]).toBe(-stage.positionM[LANDMARK.leftElbow * 3 + 2]!);
    expect(once.image[LANDMARK.rightElbow * 2]).toBe(1 - stage.image[LANDMARK.leftElbow * 2]!);
    expect(once.positionM).toHaveLength(2 * LANDMARK_COUNT * 3);
  });
});
