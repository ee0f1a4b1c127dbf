/**
 * What each kind of joint looks like: a ball with its seam, a hinge's pin, a swivel's collar, a wire's coil, a screw's hexagon
 * on its rod. All about the origin, along the Y axis, for a bone of radius 1.
 */
import { type BufferGeometry, CylinderGeometry, SphereGeometry, TorusGeometry } from 'three';
import { mergeGeometries } from 'three/addons/utils/BufferGeometryUtils.js';
import type { FigureJointKind } from '../../charts/figure/figure.ts';

function ring(radius: number, tube: number, y = 0): BufferGeometry {
  return new TorusGeometry(radius, tube, 8, 24).rotateX(Math.PI / 2).translate(0, y, 0);
}

const PARTS: Readonly<Record<FigureJointKind, () => BufferGeometry[]>> = {
  ball: () => [new SphereGeometry(1.28, 20, 14), ring(1.3, 0.14)],
  hinge: () => [new CylinderGeometry(0.72, 0.72, 3, 18), new CylinderGeometry(1.05, 1.05, 0.36, 18).translate(0, 1.4, 0), new CylinderGeometry(1.05, 1.05, 0.36, 18).translate(0, -1.4, 0)],
  swivel: () => [new CylinderGeometry(1.34, 1.34, 0.7, 24), ring(1.34, 0.2, 0.42), ring(1.34, 0.2, -0.42)],
  wire: () => [ring(1.06, 0.22, 0.9), ring(1.06, 0.22, 0.3), ring(1.06, 0.22, -0.3), ring(1.06, 0.22, -0.9)],
  screw: () => [new CylinderGeometry(1.45, 1.45, 1, 6), new CylinderGeometry(0.4, 0.4, 4, 10)],
};

const made = new Map<FigureJointKind, BufferGeometry>();

/** One geometry for all joints of a kind. */
export function jointGeometry(kind: FigureJointKind): BufferGeometry {
  let geometry = made.get(kind);
  if (geometry === undefined) {
    geometry = mergeGeometries(PARTS[kind]());
    made.set(kind, geometry);
  }
  return geometry;
}
