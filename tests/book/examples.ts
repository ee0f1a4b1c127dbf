/**
 * The book and the tracks the tests of this folder use: Marla reaches for a jar on one leg.
 */
import fc from 'fast-check';
import { newBook, type Book } from '../../src/book/document.ts';
import { LANDMARK_COUNT } from '../../src/pose/landmarks.ts';
import { emptyTrack, type Track } from '../../src/pose/track.ts';
import { checkArmature } from '../../src/puppet/parseArmature.ts';

/** As it stands in the fixtures of version 1. */
const ARMATURE_V1 = {
  format: 'nudgebook-armature',
  version: 1,
  name: 'Marla',
  heightMm: 280,
  joints: [
    { name: 'pelvis', kind: 'ball' },
    { name: 'rightElbow', kind: 'hinge' },
    { name: 'head', kind: 'swivel' },
  ],
};

/** Every field away from its default, so that a field that is lost shows. */
export function marlaBook(): Book {
  return {
    ...newBook(),
    title: 'Marla reaches the jar',
    take: {
      name: 'one-leg-reach.webm',
      sizeBytes: 512_345,
      hash: '3f5a9c0e11d27b84',
      widthPx: 640,
      heightPx: 720,
      durationS: 3.2,
      frames: 96,
      rate: { kind: 'variable', minFps: 21, medianFps: 29.5, maxFps: 30 },
      address: 'reference-clips/one-leg-reach.webm',
    },
    model: 'heavy',
    settings: { inS: 0.4, outS: 2.9, captureFactor: 8, mirror: true, cutoffHz: 5.5, smoother: 'penalised', rate: 12, on: 3, timeScale: 1.5 },
    corrections: {
      camera: { pitchDeg: 4, rollDeg: -1.5, verticalFovDeg: 48 },
      placed: [{ timeS: 1.23, landmark: 'leftElbow', x: 0.4, y: 0.35 }],
      angles: [{ timeS: 1.3, joint: 'rightKnee', angleDeg: 12 }],
      depthFlips: [{ limb: 'rightArm', bone: 'lower', fromS: 0.5, toS: 0.9 }],
      swaps: [{ fromS: 2, toS: 2.1, part: 'legs', swapped: true }],
      contacts: [{ foot: 'left', fromS: 0, toS: 3, stands: true }],
      slate: { kind: 'given', straightFromS: 0.2, straightToS: 0.8, squareFromS: 1, squareToS: 1.5 },
    },
    armature: checkArmature(ARMATURE_V1),
    timing: {
      marks: [
        { id: 'm1', sourceS: 0.6, filmS: 0.25, locked: true, kind: 'start', name: 'reach begins' },
        { id: 'm2', sourceS: 1.4, filmS: 1.5, locked: false, kind: 'extreme', name: 'jar' },
      ],
      snapJoints: ['rightElbow'],
      holdSpans: [{ fromExposure: 7, on: 1 }, { fromExposure: 19, on: 2 }],
      alive: { strength: 'gentle', pattern: 'breath', frozen: ['leftWrist'], mostStill: 4 },
      gauge: '35 mm',
    },
    timingVersions: [{
      id: 'v1', name: 'slower landing', rate: 24, on: 2, timeScale: 1.2,
      timing: { marks: [], snapJoints: [], holdSpans: [], alive: { strength: 'off', pattern: 'sway', frozen: [], mostStill: 4 }, gauge: null },
    }],
    poise: {
      table: 'Winter', pendulumFactor: 1.24, marginMm: 2.5,
      touches: [{ bone: 'rightHand', fromS: 1, toS: 1.5, touches: true }],
      tieDowns: [{ foot: 'leftFoot', fromS: 0.4, toS: 2.9 }],
      props: [{ name: 'jar', bone: 'rightHand', atMm: [0, -12, 0], massG: 14, fromS: 1.4, toS: 2.9 }],
      corrections: [{
        id: 'c1', fromS: 1, toS: 1.6, marginMm: 2.5, applied: true,
        turns: [{ joint: 'spine', keys: [{ timeS: 0.9, turnDeg: [0, 0, 0] }, { timeS: 1.2, turnDeg: [3, 0, -1.5] }, { timeS: 1.7, turnDeg: [0, 0, 0] }] }],
        shift: [{ timeS: 1.2, shiftMm: [1, 0, -2] }],
      }],
    },
    shotSteps: [1, 2, 5],
    notes: { '3': 'keep the jar hand low', '12': 'heel lifts' },
  };
}

/** The same as a book of version 2 comes to be when it is opened. */
export function marlaBookOfVersion2(): Book {
  const { timing, timingVersions, poise } = newBook();
  return { ...marlaBook(), timing, timingVersions, poise };
}

/** The same as a book of version 1 comes to be when it is opened: what it did not have yet is at its default. */
export function marlaBookOfVersion1(): Book {
  const { corrections } = newBook();
  const book = marlaBookOfVersion2();
  return { ...book, corrections, settings: { ...book.settings, smoother: 'butterworth' } };
}

/** One frame with a person and one without; numbers that have no short decimal form. */
export function twoFrameTrack(): Track {
  const track = emptyTrack('heavy', 640, 720, Float64Array.of(0, 1001 / 30_000));
  for (let i = 0; i < LANDMARK_COUNT; i += 1) {
    track.visibility[i] = (i + 1) / 34;
    for (let c = 0; c < 3; c += 1) {
      track.image[i * 3 + c] = (i + c) / 37;
      track.world[i * 3 + c] = (i - 16) / 71 - c / 13;
    }
  }
  track.found[0] = 1;
  return track;
}

/** A quiet NaN with a payload of its own, as a 32-bit pattern: a codec that goes through numbers would lose it. */
export const ODD_NAN_BITS = 0x7fc0_1234;

/** Tracks of 0 to 4 frames with any allowed numbers. */
export const anyTrack: fc.Arbitrary<Track> = fc
  .record({
    model: fc.constantFrom('lite', 'full', 'heavy'),
    gapsS: fc.array(fc.double({ min: 1e-6, max: 1e3, noNaN: true }), { maxLength: 4 }),
    found: fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
    seed: fc.array(fc.float({ noNaN: true, noDefaultInfinity: true }), { minLength: 7, maxLength: 40 }),
    share: fc.float({ min: 0, max: 1, noNaN: true }),
  })
  .map(({ model, gapsS, found, seed, share }) => {
    let timeS = 0;
    const track = emptyTrack(model as Track['model'], 640, 360, Float64Array.from(gapsS, (gapS) => (timeS += gapS)));
    for (let f = 0; f < gapsS.length; f += 1) {
      const from = f * LANDMARK_COUNT;
      if (found[f] !== true) {
        new Uint32Array(track.world.buffer)[from * 3] = ODD_NAN_BITS;
        continue;
      }
      track.found[f] = 1;
      for (let i = from; i < from + LANDMARK_COUNT; i += 1) track.visibility[i] = share;
      for (let i = from * 3; i < (from + LANDMARK_COUNT) * 3; i += 1) {
        track.image[i] = seed[i % seed.length] ?? 0;
        track.world[i] = seed[(i * 7 + 3) % seed.length] ?? 0;
      }
    }
    return track;
  });

/** The bytes of a track's arrays, so that NaN is compared bit by bit. */
export function bytesOf(track: Track): Record<string, unknown> {
  const bytes = (a: Float64Array | Float32Array | Uint8Array) => Array.from(new Uint8Array(a.buffer, a.byteOffset, a.byteLength));
  return {
    model: track.model,
    widthPx: track.widthPx,
    heightPx: track.heightPx,
    timesS: bytes(track.timesS),
    image: bytes(track.image),
    world: bytes(track.world),
    visibility: bytes(track.visibility),
    found: bytes(track.found),
  };
}
