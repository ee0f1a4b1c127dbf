/**
 * Packs two tflite models into the one file that the pose engine loads.
 *
 * A `.task` bundle is a zip whose members are stored, not deflated, under two fixed names. Names and the
 * need for stored members: seen to be required by `@mediapipe/tasks-vision` 1.1.0.
 */
import { zipSync } from 'fflate';
import { buildNormalisationMetadata, type Normalisation } from './normalisationMetadata.ts';
import { addModelMetadata } from './tfliteMetadata.ts';

export const DETECTOR_NAME = 'pose_detector.tflite';
export const LANDMARKS_NAME = 'pose_landmarks_detector.tflite';

/** The detector wants pixels as -1..1, the landmark model as 0..1; with these, the published landmarks of a still come out. */
export const DETECTOR_INPUT: Normalisation = { mean: 127.5, std: 127.5 };
export const LANDMARKS_INPUT: Normalisation = { mean: 0, std: 255 };

/** A fixed date (the earliest a zip can hold), so that the same models always give the same bytes. */
const ZIP_DATE = new Date(1980, 0, 1);

/**
 * Makes a `.task` bundle.
 *
 * @param detector bytes of the person detector, a tflite file without metadata
 * @param landmarks bytes of the landmark model, the same
 * @returns bytes of the bundle; the same input gives the same bytes
 */
export function packTask(detector: Uint8Array, landmarks: Uint8Array): Uint8Array {
  const stored = { level: 0, mtime: ZIP_DATE } as const;
  return zipSync({
    [DETECTOR_NAME]: [addModelMetadata(detector, buildNormalisationMetadata(DETECTOR_INPUT)), stored],
    [LANDMARKS_NAME]: [addModelMetadata(landmarks, buildNormalisationMetadata(LANDMARKS_INPUT)), stored],
  });
}
