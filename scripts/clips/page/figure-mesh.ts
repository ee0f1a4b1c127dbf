// The figure's parts as skinned meshes, and the bones that carry them.
import {
  Bone, BufferAttribute, BufferGeometry, Group, Matrix4, Mesh, MeshStandardMaterial, Quaternion, Skeleton, SkinnedMesh,
  SphereGeometry, Uint16BufferAttribute, Vector3,
} from 'three';
import type { Body } from '../motion/body.ts';
import type { Quat } from '../motion/rotation.ts';
import { JOINTS, offsetsOf, PARENT, type Joint, type Pose } from '../motion/skeleton.ts';
import { figureParts } from '../figure/figure.ts';
import { EYE, EYE_RADIUS } from '../figure/head.ts';
import type { Outfit } from '../figure/outfit.ts';
import type { Part } from '../figure/part.ts';
import { bindPose } from '../figure/rig.ts';
import { meshField } from '../figure/surface.ts';
import { skinOf } from '../figure/weights.ts';

/** Ours are [w, x, y, z]; three's want x, y, z, w. */
const quaternion = (q: Quat): Quaternion => new Quaternion(q[1], q[2], q[3], q[0]);

export interface Figure {
  readonly group: Group;
  readonly pose: (pose: Pose) => void;
}

/** Meshes the figure once; `pose` then moves it. @param cells above 1: coarser meshes by so much */
export function makeFigure(body: Body, outfit: Outfit, cells = 1): Figure {
  const bones = new Map<Joint, Bone>();
  const offsets = offsetsOf(body);
  for (const joint of JOINTS) {
    const bone = new Bone();
    bone.name = joint;
    bone.position.set(...offsets[joint]);
    bones.set(joint, bone);
    const parent = PARENT[joint];
    if (parent !== undefined) bones.get(parent)?.add(bone);
  }
  const pose = (p: Pose): void => {
    for (const joint of JOINTS) bones.get(joint)?.quaternion.copy(quaternion(p.rotations[joint]));
    bones.get('pelvis')?.position.set(...p.root);
  };
  const group = new Group();
  const root = bones.get('pelvis');
  if (root === undefined) throw new Error('a figure without a pelvis');
  group.add(root);
  pose(bindPose(body));
  group.updateMatrixWorld(true);
  const list = JOINTS.map((j) => bones.get(j)).filter((b) => b !== undefined);
  const skeleton = new Skeleton(list);
  for (const part of figureParts(body, outfit)) group.add(skinnedPart(part, skeleton, cells));
  const head = bones.get('head');
  if (head !== undefined) for (const side of [1, -1]) head.add(eye(body, outfit, side));
  return { group, pose };
}

function skinnedPart(part: Part, skeleton: Skeleton, cells: number): SkinnedMesh {
  const surface = meshField(part.field, part.bounds, part.cellM * cells);
  const { bones, weights } = skinOf(surface.positions, part.holders, (b) => JOINTS.indexOf(b));
  const n = surface.positions.length / 3;
  const colours = new Float32Array(n * 3);
  for (let v = 0; v < n; v++) {
    const p = surface.positions;
    colours.set(part.colour(p[3 * v] ?? 0, p[3 * v + 1] ?? 0, p[3 * v + 2] ?? 0), 3 * v);
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(surface.positions, 3));
  geometry.setAttribute('normal', new BufferAttribute(surface.normals, 3));
  geometry.setAttribute('color', new BufferAttribute(colours, 3));
  geometry.setAttribute('skinIndex', new Uint16BufferAttribute(bones, 4));
  geometry.setAttribute('skinWeight', new BufferAttribute(weights, 4));
  geometry.setIndex(new BufferAttribute(surface.indices, 1));
  const mesh = new SkinnedMesh(geometry, new MeshStandardMaterial({ vertexColors: true, roughness: part.roughness }));
  mesh.name = part.name;
  mesh.castShadow = true;
  mesh.receiveShadow = true;
  mesh.frustumCulled = false;
  mesh.bind(skeleton, new Matrix4());
  return mesh;
}

/** An eyeball that looks forward: white, iris, pupil by the angle from its axis. */
function eye(body: Body, outfit: Outfit, side: number): Mesh {
  const s = body.headSize;
  const geometry = new SphereGeometry(EYE_RADIUS * s, 48, 48);
  const at = geometry.getAttribute('position');
  const colours = new Float32Array(at.count * 3);
  const gaze = new Vector3(1, -0.06, 0.02 * side).normalize();
  const here = new Vector3();
  for (let v = 0; v < at.count; v++) {
    const angle = here.fromBufferAttribute(at, v).normalize().angleTo(gaze);
    const pupil = angle < 0.2;
    const c = pupil ? [0.01, 0.01, 0.01] : angle < 0.52 ? outfit.iris : [0.72, 0.69, 0.66];
    colours.set(c, 3 * v);
  }
  geometry.setAttribute('color', new BufferAttribute(colours, 3));
  const mesh = new Mesh(geometry, new MeshStandardMaterial({ vertexColors: true, roughness: 0.15 }));
  mesh.position.set(EYE[0] * s, EYE[1] * s, EYE[2] * side * s);
  return mesh;
}
