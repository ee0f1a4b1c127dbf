/**
 * A puppet in the scene. Each part is a group whose place and turn are set for every pose; all else is made once.
 */
import {
  BackSide, BufferGeometry, CapsuleGeometry, type Color, DataTexture, Float32BufferAttribute, Group, Mesh, MeshBasicMaterial, MeshLambertMaterial,
  NearestFilter, Quaternion, RepeatWrapping, type ShaderMaterial, Vector3,
} from 'three';
import { type FigurePart, type FigurePose, type FigureShape, isKnown } from '../../charts/figure/figure.ts';
import { hatchMaterial, setHatchInk } from './hatchMaterial.ts';
import { jointGeometry } from './jointShapes.ts';

const UP = new Vector3(0, 1, 0);
/** Length of one band of the parts of the right half, mm. */
const BAND_MM = 9;
/** Thickness of the outlines as parts of the puppet's height: thin round every part, wider round what moves. */
const EDGE_PART = 0.0028;
const MOVED_PART = 0.006;

/** A capsule from end to end; a bone shorter than it is thick is a ball. */
function boneGeometry(part: FigurePart, growMm: number): BufferGeometry {
  const from = new Vector3(...part.fromMm);
  const along = new Vector3(...part.toMm).sub(from);
  const lengthMm = along.length();
  const geometry = new CapsuleGeometry(part.radiusMm + growMm, lengthMm, 5, 14);
  if (lengthMm > 1e-6) geometry.applyQuaternion(new Quaternion().setFromUnitVectors(UP, along.clone().divideScalar(lengthMm)));
  return geometry.translate(...from.addScaledVector(along, 0.5).toArray());
}

/** The sole as a shoe of half its height: a fan about its first corner below and above (soles are convex), walls between. */
function soleGeometry(part: FigurePart): BufferGeometry {
  const low = part.soleMm;
  const high = low.map(([x, y, z]) => [x, y / 2, z] as const);
  const places: number[] = [];
  for (let i = 0; i < low.length; i += 1) {
    const j = (i + 1) % low.length;
    for (const ring of [low, high]) places.push(...ring[0]!, ...ring[i]!, ...ring[j]!);
    places.push(...low[i]!, ...low[j]!, ...high[j]!, ...low[i]!, ...high[j]!, ...high[i]!);
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new Float32BufferAttribute(places, 3));
  geometry.computeVertexNormals();
  return geometry;
}

function bandTexture(): DataTexture {
  const texture = new DataTexture(Uint8Array.from([255, 255, 255, 255, 150, 150, 150, 255]), 1, 2);
  texture.wrapT = RepeatWrapping;
  texture.magFilter = NearestFilter;
  texture.needsUpdate = true;
  return texture;
}

export interface FigureInk {
  readonly body: Color;
  readonly joint: Color;
  readonly edge: Color;
  /** Outline of what moves since the step before. */
  readonly moved: Color;
  readonly unsure: Color;
}

export interface PartLook {
  readonly moved: boolean;
  readonly unsure: boolean;
  readonly picked: boolean;
}

export interface FigureModel {
  readonly group: Group;
  /** Parts that can be hit, in the order of the shape. */
  readonly bodies: readonly Mesh[];
  readonly setPose: (pose: FigurePose, look: (part: number) => PartLook) => void;
  readonly setInk: (ink: FigureInk) => void;
  readonly dispose: () => void;
}

function placePart(group: Group, pose: FigurePose, p: number): void {
  const { originMm: o, rotations: r } = pose;
  group.visible = isKnown(pose, p);
  if (!group.visible) return;
  group.position.set(o[p * 3]!, o[p * 3 + 1]!, o[p * 3 + 2]!);
  group.quaternion.set(r[p * 4 + 1]!, r[p * 4 + 2]!, r[p * 4 + 3]!, r[p * 4]!);
}

/** The puppet of the step itself: solid, with an outline; the right half is banded. */
export function solidFigure(shape: FigureShape): FigureModel {
  const group = new Group();
  const plain = new MeshLambertMaterial();
  const banded: MeshLambertMaterial[] = [];
  const joint = new MeshLambertMaterial();
  const pickedJoint = new MeshBasicMaterial();
  const sole = new MeshLambertMaterial({ side: 2 });
  const edge = new MeshBasicMaterial({ side: BackSide });
  const moved = new MeshBasicMaterial({ side: BackSide });
  const unsure = hatchMaterial({ slope: 'upright', pitchPx: 6, share: 0.3, onTop: true });
  const bands = bandTexture();
  const parts = shape.parts.map((part) => {
    const one = new Group();
    const geometry = boneGeometry(part, 0);
    let material = plain;
    if (part.side === 'right') {
      const map = bands.clone();
      map.repeat.set(1, Math.max(1, Math.round(Math.hypot(part.toMm[0] - part.fromMm[0], part.toMm[1] - part.fromMm[1], part.toMm[2] - part.fromMm[2]) / BAND_MM)));
      material = new MeshLambertMaterial({ map });
      banded.push(material);
    }
    const body = new Mesh(geometry, material);
    const hull = new Mesh(boneGeometry(part, shape.heightMm * EDGE_PART), edge);
    const wideHull = new Mesh(boneGeometry(part, shape.heightMm * MOVED_PART), moved);
    const hatch = new Mesh(geometry, unsure);
    one.add(body, hull, wideHull, hatch);
    let head: Mesh | null = null;
    if (part.joint !== null) {
      head = new Mesh(jointGeometry(part.joint.kind), joint);
      head.scale.setScalar(part.joint.radiusMm);
      head.quaternion.setFromUnitVectors(UP, new Vector3(...part.joint.axis).normalize());
      one.add(head);
    }
    if (part.soleMm.length >= 3) one.add(new Mesh(soleGeometry(part), sole));
    group.add(one);
    return { one, body, hull, wideHull, hatch, head };
  });
  return {
    group,
    bodies: parts.map(({ body }) => body),
    setPose: (pose, look) => parts.forEach((part, p) => {
      placePart(part.one, pose, p);
      const said = look(p);
      part.wideHull.visible = said.moved;
      part.hatch.visible = said.unsure;
      if (part.head !== null) part.head.material = said.picked ? pickedJoint : joint;
    }),
    setInk: (ink) => {
      for (const material of [plain, ...banded]) material.color.copy(ink.body);
      joint.color.copy(ink.joint);
      sole.color.copy(ink.joint);
      edge.color.copy(ink.edge);
      moved.color.copy(ink.moved);
      pickedJoint.color.copy(ink.moved);
      setHatchInk(unsure, ink.unsure);
    },
    dispose: () => {
      for (const { body, hull, wideHull } of parts) for (const mesh of [body, hull, wideHull]) mesh.geometry.dispose();
      for (const material of [plain, joint, pickedJoint, sole, edge, moved, unsure]) material.dispose();
      for (const material of banded) {
        material.map?.dispose();
        material.dispose();
      }
      bands.dispose();
    },
  };
}

export interface GhostModel {
  readonly group: Group;
  /** @param pose `null`: there is none */
  readonly setPose: (pose: FigurePose | null, shown: (part: number) => boolean) => void;
  readonly dispose: () => void;
}

/** Where the parts were or will be: hatching only. The material stays the caller's. */
export function ghostFigure(shape: FigureShape, material: ShaderMaterial): GhostModel {
  const group = new Group();
  const parts = shape.parts.map((part) => {
    const one = new Group();
    one.add(new Mesh(boneGeometry(part, 0), material));
    group.add(one);
    return one;
  });
  return {
    group,
    setPose: (pose, shown) => {
      group.visible = pose !== null;
      if (pose !== null) parts.forEach((one, p) => {
        placePart(one, pose, p);
        one.visible &&= shown(p);
      });
    },
    dispose: () => {
      for (const one of parts) one.traverse((object) => { if (object instanceof Mesh) (object.geometry as BufferGeometry).dispose(); });
    },
  };
}
