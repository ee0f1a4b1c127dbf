import { describe, expect, it } from 'vitest';
import { hiddenLandmarks, sightOf } from '../../src/pose/hidden.ts';
import { LANDMARK, LANDMARK_COUNT } from '../../src/pose/landmarks.ts';
import { requirePerson } from '../../src/pose/requirePerson.ts';
import { emptyTrack } from '../../src/pose/track.ts';

function oneFrame(): ReturnType<typeof emptyTrack> {
  const track = emptyTrack('lite', 640, 480, Float64Array.of(0, 0.1));
  track.found[0] = 1;
  for (let i = 0; i < LANDMARK_COUNT; i++) {
    track.image.set([0.5, 0.5, 0], i * 3);
    track.visibility[i] = 0.9;
  }
  return track;
}

describe('which landmarks were seen', () => {
  it('those inside the picture that the model believes to be visible', () => {
    const track = oneFrame();
    track.visibility[LANDMARK.leftElbow] = 0.5;
    track.visibility[LANDMARK.rightElbow] = 0.49;
    track.image.set([1.01, 0.5], LANDMARK.leftKnee * 3);
    track.image.set([0.5, -0.01], LANDMARK.rightKnee * 3);
    track.image.set([0, 1], LANDMARK.nose * 3);
    const of = (name: keyof typeof LANDMARK): string => sightOf(track, 0, LANDMARK[name]);
    expect(of('leftElbow')).toBe('seen');
    expect(of('rightElbow')).toBe('covered');
    expect(of('leftKnee')).toBe('outside');
    expect(of('rightKnee')).toBe('outside');
    expect(of('nose')).toBe('seen');
    expect(sightOf(track, 1, LANDMARK.nose)).toBe('nobody');
  });

  it('as a mask over all frames', () => {
    const track = oneFrame();
    track.visibility[LANDMARK.leftWrist] = 0;
    const hidden = hiddenLandmarks(track);
    expect(hidden).toHaveLength(2 * LANDMARK_COUNT);
    const shown = [...hidden];
    expect(shown.slice(0, LANDMARK_COUNT).reduce((a, b) => a + b, 0)).toBe(1);
    expect(shown[LANDMARK.leftWrist]).toBe(1);
    expect(shown.slice(LANDMARK_COUNT).every((v) => v === 1)).toBe(true);
  });
});

describe('a clip with nobody in it', () => {
  it('is an error, and one with somebody in a single frame is none', () => {
    expect(() => requirePerson(emptyTrack('full', 10, 10, Float64Array.of(0, 1, 2)))).toThrow(
      expect.objectContaining({ code: 'no-person', message: 'Nobody was found in any of the 3 frames.' }) as Error,
    );
    expect(() => requirePerson(oneFrame())).not.toThrow();
  });
});
