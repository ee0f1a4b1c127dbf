/**
 * The pose engine in a worker: one landmarker, one frame at a time, no memory from frame to frame.
 *
 * Image mode, because video mode smooths with a lag that depends on the frame rate and cannot be switched off.
 * One landmarker a worker, because a worker has few graphics contexts and a lost one silently finds nobody.
 */
import { NudgebookError } from '../errors.ts';
import { loadModel } from './modelFiles.ts';
import { packPose } from './poseValues.ts';
import type { ModelSize } from './track.ts';

/** Longest side of the picture given to the engine, pixels: faster than full size at the same accuracy. */
export const ENGINE_LONG_SIDE_PX = 640;

const GRAPHICS_TIP = 'Switch on hardware acceleration in the browser\'s settings, or start it with software WebGL allowed, and try again.';

export interface Landmarker {
  /**
   * Finds one person.
   *
   * @param picture the upright frame
   * @returns 231 numbers as packed by {@link packPose}; undefined where nobody is found
   * @throws NudgebookError `no-webgl` when the browser has taken the graphics context away
   */
  find(picture: OffscreenCanvas): Float32Array | undefined;
}

/**
 * Loads engine and model.
 *
 * @param base absolute address of the served assets
 * @throws NudgebookError `no-webgl`, `model-missing`
 */
export async function createLandmarker(base: string, model: ModelSize): Promise<Landmarker> {
  requireWebGl2();
  const modelAssetBuffer = await loadModel(base, model);
  const { FilesetResolver, PoseLandmarker } = await import('@mediapipe/tasks-vision');
  // `true`: the build of the wasm loader that is a module, the only kind that a module worker can load.
  const fileset = await FilesetResolver.forVisionTasks(new URL('wasm', base).href, true);
  const canvas = new OffscreenCanvas(1, 1);
  const engine = await PoseLandmarker.createFromOptions(fileset, {
    baseOptions: { modelAssetBuffer, delegate: 'CPU' },
    runningMode: 'IMAGE',
    numPoses: 1,
    canvas,
  });
  // The engine has made its context on our canvas; asking again gives the same one.
  const graphics = canvas.getContext('webgl2');
  return {
    find: (picture) => {
      const { landmarks, worldLandmarks } = engine.detect(picture);
      if (graphics?.isContextLost()) {
        throw new NudgebookError('no-webgl', 'The browser took the graphics context away while poses were being found.', 'Close other tabs that draw in 3D and run the pose again.');
      }
      const image = landmarks[0];
      const world = worldLandmarks[0];
      return image && world ? packPose(image, world) : undefined;
    },
  };
}

/** Without WebGL2 the engine fails with a message about something else, so it is tested for first. */
function requireWebGl2(): void {
  const graphics = new OffscreenCanvas(1, 1).getContext('webgl2');
  if (!graphics) throw new NudgebookError('no-webgl', 'The pose model needs WebGL 2, and this browser offers none.', GRAPHICS_TIP);
  graphics.getExtension('WEBGL_lose_context')?.loseContext();
}
