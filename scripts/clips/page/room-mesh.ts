// The room and its light, drawn from the room's data.
import {
  BoxGeometry, CanvasTexture, Color, CylinderGeometry, DirectionalLight, Group, HemisphereLight, Mesh,
  MeshStandardMaterial, PlaneGeometry, MirroredRepeatWrapping, SRGBColorSpace, SphereGeometry,
} from 'three';
import { valueNoise } from '../figure/noise.ts';
import type { Colour } from '../figure/part.ts';
import { rad } from '../motion/rotation.ts';
import type { Rack, Room } from '../room.ts';
import { furnitureMesh } from './furniture-mesh.ts';

const colour = (c: Colour): Color => new Color(c[0], c[1], c[2]);
const matte = (c: Colour, roughness = 0.95): MeshStandardMaterial =>
  new MeshStandardMaterial({ color: colour(c), roughness });

/** A picture painted point by point; tone is about 1. */
function texture(size: number, tone: (u: number, v: number) => number): CanvasTexture {
  const canvas = document.createElement('canvas');
  canvas.width = canvas.height = size;
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('no 2D canvas');
  const image = context.createImageData(size, size);
  for (let y = 0; y < size; y++) for (let x = 0; x < size; x++) {
    const level = Math.max(0, Math.min(255, 205 * tone(x / size, y / size)));
    image.data.set([level, level, level, 255], 4 * (y * size + x));
  }
  context.putImageData(image, 0, 0);
  const made = new CanvasTexture(canvas);
  made.wrapS = made.wrapT = MirroredRepeatWrapping;
  made.colorSpace = SRGBColorSpace;
  made.anisotropy = 8;
  return made;
}

const plaster = (): CanvasTexture => texture(512, (u, v) =>
  1 + 0.05 * valueNoise(u * 5, v * 5, 0, 1) + 0.04 * valueNoise(u * 40, v * 40, 0, 2) + 0.03 * valueNoise(u * 200, v * 200, 0, 3));

const PLANKS = 12;
const planks = (): CanvasTexture => texture(1024, (u, v) => {
  const plank = Math.floor(u * PLANKS);
  const edge = Math.abs(u * PLANKS - plank - 0.5) > 0.47 ? 0.62 : 1;
  return edge * (1 + 0.14 * valueNoise(plank * 3.7, 0, 0, 4) + 0.1 * valueNoise(u * 260, v * 9 + plank * 5, 0, 5)
    + 0.04 * valueNoise(u * 500, v * 60, 0, 6));
});

const solid = (size: readonly [number, number, number], at: readonly [number, number, number], material: MeshStandardMaterial): Mesh => {
  const mesh = new Mesh(new BoxGeometry(...size), material);
  mesh.position.set(...at);
  mesh.castShadow = true;
  mesh.receiveShadow = true;
  return mesh;
};

/** Room and lights; inside its group +X faces the camera side and the wall is behind. */
export function makeRoom(room: Room): Group {
  const world = new Group();
  const group = new Group();
  group.rotation.y = -rad(room.facingDeg);
  group.position.set(...room.middle);
  world.add(group);

  const floor = new Mesh(new PlaneGeometry(12, 12),
    new MeshStandardMaterial({ color: colour(room.floor), roughness: 0.75, map: planks() }));
  if (floor.material.map !== null) floor.material.map.repeat.set(6, 4);
  floor.rotation.x = -Math.PI / 2;
  floor.receiveShadow = true;
  group.add(floor);

  const wall = new Mesh(new PlaneGeometry(14, 5), new MeshStandardMaterial({ color: colour(room.wall), roughness: 0.98, map: plaster() }));
  if (wall.material.map !== null) wall.material.map.repeat.set(6, 2);
  wall.rotation.y = Math.PI / 2;
  wall.position.set(-room.wallM, 2.5, 0);
  wall.receiveShadow = true;
  group.add(wall);
  group.add(solid([0.025, 0.1, 14], [-room.wallM + 0.012, 0.05, 0], matte([0.6, 0.55, 0.46])));
  group.add(room.nightWindow ? nightWindow(room.wallM) : picture(room.wallM));
  if (room.rack !== undefined) world.add(rackOf(room.rack));
  for (const piece of room.furniture ?? []) world.add(furnitureMesh(piece));
  addLights(group, room);
  return world;
}

function picture(wallM: number): Group {
  const group = new Group();
  group.position.set(-wallM + 0.02, 1.62, -0.78);
  group.add(solid([0.03, 0.46, 0.36], [0, 0, 0], matte([0.11, 0.06, 0.03], 0.5)));
  group.add(solid([0.032, 0.4, 0.3], [0.002, 0, 0], matte([0.55, 0.52, 0.44])));
  group.add(solid([0.034, 0.12, 0.3], [0.003, -0.14, 0], matte([0.12, 0.2, 0.1])));
  group.add(solid([0.034, 0.07, 0.07], [0.004, 0.06, 0.05], matte([0.6, 0.3, 0.08])));
  return group;
}

/** A window on the night: dark glass, a moon, bars. */
function nightWindow(wallM: number): Group {
  const group = new Group();
  group.position.set(-wallM + 0.02, 1.55, 0.8);
  const frame = matte([0.2, 0.11, 0.06], 0.6);
  group.add(solid([0.02, 1.0, 0.76], [0, 0, 0],
    new MeshStandardMaterial({ color: new Color(0.01, 0.016, 0.05), roughness: 0.25, emissive: new Color(0.008, 0.013, 0.04) })));
  const moon = new Mesh(new SphereGeometry(0.055, 24, 16),
    new MeshStandardMaterial({ color: 0x000000, emissive: new Color(0.75, 0.72, 0.6) }));
  moon.scale.x = 0.05;
  moon.position.set(0.013, 0.3, 0.12);
  group.add(moon);
  for (const z of [-0.38, 0, 0.38]) group.add(solid([0.05, 1.06, z === 0 ? 0.03 : 0.06], [0.01, 0, z], frame));
  for (const y of [-0.5, 0.03, 0.5]) group.add(solid([0.05, y === 0.03 ? 0.03 : 0.06, 0.82], [0.012, y, 0], frame));
  return group;
}

/** A baker's rack: posts, boards, loaves, bowls, and the jar up high. */
function rackOf(rack: Rack): Group {
  const world = new Group();
  const group = new Group();
  group.position.set(...rack.at);
  group.rotation.y = rad(rack.turnDeg - 90);
  world.add(group);
  const wood = matte([0.3, 0.17, 0.085], 0.7);
  const top = Math.max(...rack.boards);
  for (const x of [-1, 1]) for (const z of [-1, 1]) {
    group.add(solid([0.035, top, 0.035], [x * (rack.widthM / 2 - 0.02), top / 2, z * (rack.depthM / 2 - 0.02)], wood));
  }
  for (const y of rack.boards) group.add(solid([rack.widthM, 0.025, rack.depthM], [0, y, 0], wood));
  rack.boards.slice(0, -1).forEach((y, row) => {
    for (let k = 0; k < 3; k++) {
      const x = (k - 1) * rack.widthM * 0.3;
      group.add((k + row) % 2 === 0 ? loaf(x, y) : bowl(x, y, row));
    }
  });
  world.add(jarAt(rack.jar));
  return world;
}

function loaf(x: number, y: number): Mesh {
  const mesh = new Mesh(new SphereGeometry(0.1, 24, 16), matte([0.42, 0.2, 0.07], 0.85));
  mesh.scale.set(0.8, 0.6, 1.15);
  mesh.position.set(x, y + 0.06, 0);
  mesh.castShadow = true;
  mesh.receiveShadow = true;
  return mesh;
}

function bowl(x: number, y: number, row: number): Mesh {
  const clay: readonly Colour[] = [[0.5, 0.46, 0.38], [0.16, 0.25, 0.24], [0.45, 0.25, 0.14]];
  const mesh = new Mesh(new CylinderGeometry(0.085, 0.05, 0.09, 28), matte(clay[row % 3] ?? [0.5, 0.5, 0.5], 0.4));
  mesh.position.set(x, y + 0.058, 0);
  mesh.castShadow = true;
  mesh.receiveShadow = true;
  return mesh;
}

/** A stoneware jar with a cork and a paper label. */
function jarAt(foot: readonly [number, number, number]): Group {
  const group = new Group();
  group.position.set(...foot);
  const add = (mesh: Mesh, y: number): void => {
    mesh.position.y = y;
    mesh.castShadow = true;
    mesh.receiveShadow = true;
    group.add(mesh);
  };
  add(new Mesh(new CylinderGeometry(0.062, 0.066, 0.15, 32), matte([0.5, 0.19, 0.05], 0.35)), 0.075);
  add(new Mesh(new CylinderGeometry(0.045, 0.062, 0.025, 32), matte([0.5, 0.19, 0.05], 0.35)), 0.162);
  add(new Mesh(new CylinderGeometry(0.042, 0.04, 0.04, 24), matte([0.45, 0.3, 0.16], 0.9)), 0.19);
  add(new Mesh(new CylinderGeometry(0.0655, 0.067, 0.06, 32), matte([0.75, 0.7, 0.58], 0.95)), 0.08);
  return group;
}

function addLights(group: Group, room: Room): void {
  group.add(new HemisphereLight(colour(room.sky), colour([0.36, 0.25, 0.17]), room.hemisphere));
  const key = new DirectionalLight(new Color(1, 0.86, 0.68), room.key);
  key.position.set(3.2, 3.6, 1.6);
  key.target.position.set(0, 0.9, 0);
  key.castShadow = true;
  key.shadow.mapSize.set(1536, 1536);
  const c = key.shadow.camera;
  c.left = -2.6; c.right = 2.6; c.bottom = -2.2; c.top = 2.2; c.near = 0.5; c.far = 9;
  key.shadow.bias = -0.0004;
  key.shadow.normalBias = 0.012;
  key.shadow.radius = 4;
  group.add(key, key.target);
  const fill = new DirectionalLight(new Color(0.75, 0.85, 1), room.fill);
  fill.position.set(2.6, 2, -3);
  group.add(fill);
}
