// Stools and tables, drawn from the room's data.
import { BoxGeometry, Color, Group, Mesh, MeshStandardMaterial } from 'three';
import type { Furniture } from '../room.ts';

const BOARD_M = 0.04;
const LEG_M = 0.045;

/** Board, legs and, where closed, a front. */
export function furnitureMesh(piece: Furniture): Group {
  const group = new Group();
  group.position.set(...piece.at);
  const material = new MeshStandardMaterial({ color: new Color(...piece.wood), roughness: 0.7 });
  const block = (size: readonly [number, number, number], at: readonly [number, number, number]): void => {
    const mesh = new Mesh(new BoxGeometry(...size), material);
    mesh.position.set(...at);
    mesh.castShadow = true;
    mesh.receiveShadow = true;
    group.add(mesh);
  };
  const under = piece.topM - BOARD_M;
  block([piece.depthM, BOARD_M, piece.widthM], [0, under + BOARD_M / 2, 0]);
  for (const x of [-1, 1]) for (const z of [-1, 1]) {
    block([LEG_M, under, LEG_M], [x * (piece.depthM / 2 - LEG_M), under / 2, z * (piece.widthM / 2 - LEG_M)]);
  }
  if (piece.apronToM !== undefined) {
    block([0.02, under - piece.apronToM, piece.widthM - 0.1], [piece.depthM / 2 - LEG_M / 2, (under + piece.apronToM) / 2, 0]);
  }
  return group;
}
