// One clip set up for drawing: figure, room, camera, noise. Draws any frame onto a 2D canvas.
import { ACESFilmicToneMapping, PCFShadowMap, PerspectiveCamera, Scene, WebGLRenderer } from 'three';
import { cameraPosition } from '../camera.ts';
import { shutterTimes, type Clip } from '../clip.ts';
import { poseFrom } from '../motion/pose.ts';
import { rad } from '../motion/rotation.ts';
import { LightSum } from './exposure.ts';
import { makeFigure } from './figure-mesh.ts';
import { makeRoom } from './room-mesh.ts';
import { addSensorNoise } from './sensor.ts';

const NOISE_LEVEL = 1;
/** Cells of a sketchy figure's meshes are so much larger. */
const SKETCHY_CELLS = 1.5;

export interface Stage {
  readonly canvas: HTMLCanvasElement;
  readonly draw: (frame: number) => void;
  readonly close: () => void;
}

/** Meshes and lights a clip; takes some seconds. */
export function makeStage(clip: Clip): Stage {
  const { widthPx, heightPx } = clip.shot;
  const renderer = new WebGLRenderer({ antialias: clip.sketchy !== true, preserveDrawingBuffer: true });
  renderer.setPixelRatio(1);
  renderer.setSize(widthPx, heightPx, false);
  renderer.shadowMap.enabled = clip.sketchy !== true;
  renderer.shadowMap.type = PCFShadowMap;
  renderer.toneMapping = ACESFilmicToneMapping;
  renderer.toneMappingExposure = 1.05;

  const scene = new Scene();
  const figure = makeFigure(clip.body, clip.outfit, clip.sketchy === true ? SKETCHY_CELLS : 1);
  scene.add(figure.group, makeRoom(clip.room));
  const camera = new PerspectiveCamera(clip.shot.fovVerticalDeg, widthPx / heightPx, 0.1, 30);
  camera.position.set(...cameraPosition(clip.shot));
  camera.lookAt(...clip.shot.target);
  // Three's own Z points backward: a positive turn about it is anticlockwise as seen from behind.
  camera.rotateZ(-rad(clip.shot.rollDeg ?? 0));

  const canvas = document.createElement('canvas');
  canvas.width = widthPx;
  canvas.height = heightPx;
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (context === null) throw new Error('no 2D canvas');
  return {
    canvas,
    draw: (frame) => {
      const times = shutterTimes(clip, frame);
      const exposed = times.length === 1 ? undefined : new LightSum(widthPx * heightPx * 4);
      for (const timeS of times) {
        figure.pose(poseFrom(clip.body, clip.action.channels(clip.body, timeS)));
        renderer.render(scene, camera);
        context.drawImage(renderer.domElement, 0, 0);
        exposed?.add(context.getImageData(0, 0, widthPx, heightPx).data);
      }
      const image = context.getImageData(0, 0, widthPx, heightPx);
      exposed?.write(image.data);
      addSensorNoise(image.data, frame + 1 + 1000 * clip.name.length, NOISE_LEVEL);
      context.putImageData(image, 0, 0);
    },
    close: () => {
      renderer.dispose();
      renderer.forceContextLoss();
    },
  };
}
