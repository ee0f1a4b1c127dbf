/**
 * The stage in three dimensions, drawn only when asked. Loaded when it is first wanted (see `loadStage.ts`), because it is by
 * far the largest piece of the app.
 */
import { Color, DirectionalLight, HemisphereLight, OrthographicCamera, Raycaster, Scene, Vector2, Vector3, WebGLRenderer } from 'three';
import { NudgebookError } from '../../errors.ts';
import type { Box, FigurePose, FigureShape } from '../../charts/figure/figure.ts';
import { type Paper, type View, viewAxes } from '../../charts/figure/view.ts';
import { type FigureModel, ghostFigure, type GhostModel, type PartLook, solidFigure } from './figureModel.ts';
import { type Floor, makeFloor } from './floor.ts';
import { hatchMaterial, setHatchInk } from './hatchMaterial.ts';

/** CSS colours. */
export interface StageInk {
  readonly body: string;
  readonly joint: string;
  readonly edge: string;
  readonly moved: string;
  readonly unsure: string;
  readonly before: string;
  readonly after: string;
  readonly gridFine: string;
  readonly gridStrong: string;
}

export interface StageMoment {
  readonly now: FigurePose;
  readonly before: FigurePose | null;
  readonly after: FigurePose | null;
  readonly look: (part: number) => PartLook;
  readonly ghostShown: (which: 'before' | 'after', part: number) => boolean;
}

export interface Stage {
  /** @param box all that is to have a floor under it */
  readonly setShape: (shape: FigureShape, box: Box) => void;
  readonly setInk: (ink: StageInk) => void;
  /** Width of the grid's meshes, mm. */
  readonly gridMm: () => number;
  /** Draws at once. @param densityPx device pixels for one CSS pixel */
  readonly draw: (moment: StageMoment, view: View, paper: Paper, densityPx: number) => void;
  /** Part under a point of the last drawing, CSS px; −1 where there is none. */
  readonly partAt: (x: number, y: number) => number;
  readonly dispose: () => void;
}

/** Sharper than two device pixels the eye doesn't see, and it costs the square. */
const MOST_DENSITY = 2;

/**
 * @param onLost called when the graphics processor takes the picture away
 * @throws NudgebookError `no-webgl`
 */
export function createStage(canvas: HTMLCanvasElement, onLost: () => void): Stage {
  const context = canvas.getContext('webgl2', { antialias: true, alpha: true });
  if (context === null) {
    throw new NudgebookError('no-webgl', 'This browser can’t draw the puppet in three dimensions (no WebGL).', 'Front, side and top are drawn flat instead; everything else works.');
  }
  const renderer = new WebGLRenderer({ canvas, context, antialias: true, alpha: true });
  const scene = new Scene();
  const camera = new OrthographicCamera();
  scene.add(new HemisphereLight(0xffffff, 0x806a50, 1.9));
  const lamp = new DirectionalLight(0xfff1dc, 1.6);
  scene.add(lamp, lamp.target);
  const before = hatchMaterial({ slope: 'rising', pitchPx: 8, share: 0.36 });
  const after = hatchMaterial({ slope: 'falling', pitchPx: 11, share: 0.2 });
  let figure: FigureModel | null = null;
  let ghosts: readonly GhostModel[] = [];
  let floor: Floor | null = null;
  let ink: StageInk | null = null;
  let shown = { width: 0, height: 0, density: 0 };
  canvas.addEventListener('webglcontextlost', onLost);

  const dress = (): void => {
    if (ink === null) return;
    figure?.setInk({ body: new Color(ink.body), joint: new Color(ink.joint), edge: new Color(ink.edge), moved: new Color(ink.moved), unsure: new Color(ink.unsure) });
    floor?.setInk(new Color(ink.gridFine), new Color(ink.gridStrong));
    setHatchInk(before, new Color(ink.before));
    setHatchInk(after, new Color(ink.after));
  };
  const clear = (): void => {
    for (const thing of [figure, floor, ...ghosts]) if (thing !== null) {
      scene.remove(thing.group);
      thing.dispose();
    }
  };
  return {
    setShape: (shape, box) => {
      clear();
      figure = solidFigure(shape);
      ghosts = [ghostFigure(shape, before), ghostFigure(shape, after)];
      floor = makeFloor(box);
      scene.add(figure.group, floor.group, ...ghosts.map(({ group }) => group));
      dress();
    },
    setInk: (next) => {
      ink = next;
      dress();
    },
    gridMm: () => floor?.stepMm ?? 0,
    draw: (moment, view, paper, densityPx) => {
      figure?.setPose(moment.now, moment.look);
      ghosts[0]?.setPose(moment.before, (part) => moment.ghostShown('before', part));
      ghosts[1]?.setPose(moment.after, (part) => moment.ghostShown('after', part));
      const density = Math.min(MOST_DENSITY, densityPx);
      if (shown.width !== paper.widthPx || shown.height !== paper.heightPx || shown.density !== density) {
        shown = { width: paper.widthPx, height: paper.heightPx, density };
        renderer.setPixelRatio(density);
        renderer.setSize(paper.widthPx, paper.heightPx, false);
      }
      aim(camera, lamp, view, paper);
      renderer.render(scene, camera);
    },
    partAt: (x, y) => {
      if (figure === null || shown.width === 0) return -1;
      const ray = new Raycaster();
      ray.setFromCamera(new Vector2((x / shown.width) * 2 - 1, 1 - (y / shown.height) * 2), camera);
      const hit = ray.intersectObjects([...figure.bodies], false)[0];
      return hit === undefined ? -1 : figure.bodies.findIndex((body) => body === hit.object);
    },
    dispose: () => {
      canvas.removeEventListener('webglcontextlost', onLost);
      clear();
      before.dispose();
      after.dispose();
      renderer.dispose();
    },
  };
}

/** How far the camera stands away, mm; without perspective it only has to be outside of everything. */
const AWAY_MM = 20_000;

function aim(camera: OrthographicCamera, lamp: DirectionalLight, view: View, paper: Paper): void {
  const { toward, up, right } = viewAxes(view);
  const centre = new Vector3(...paper.centreMm);
  camera.up.set(...up);
  camera.position.copy(centre).addScaledVector(new Vector3(...toward), AWAY_MM);
  camera.lookAt(centre);
  const half = { x: paper.widthPx / paper.pxPerMm / 2, y: paper.heightPx / paper.pxPerMm / 2 };
  Object.assign(camera, { left: -half.x, right: half.x, top: half.y, bottom: -half.y, near: 1, far: 2 * AWAY_MM });
  camera.updateProjectionMatrix();
  camera.updateMatrixWorld();
  // The lamp goes with the eye, a little from the left and above, so that no view lies in the dark.
  lamp.position.copy(centre).addScaledVector(new Vector3(...toward), 3).addScaledVector(new Vector3(...up), 2).addScaledVector(new Vector3(...right), -2);
  lamp.target.position.copy(centre);
  lamp.target.updateMatrixWorld();
}
