/**
 * Hatching on bodies: stripes that stand still on the screen while the body turns, with nothing between them. The slope
 * tells what is hatched (before: rising, after: falling, unsure: upright), so that it reads without colour.
 */
import { Color, DoubleSide, FrontSide, ShaderMaterial } from 'three';

export type HatchSlope = 'rising' | 'falling' | 'upright';

const SLOPES: Readonly<Record<HatchSlope, readonly [number, number]>> = { rising: [-1, 1], falling: [1, 1], upright: [1, 0] };

const VERTEX = `
void main() {
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
}`;

const FRAGMENT = `
uniform vec3 ink;
uniform vec2 slope;
uniform float pitch;
uniform float share;
void main() {
  if (mod(dot(gl_FragCoord.xy, slope), pitch) > pitch * share) discard;
  gl_FragColor = vec4(ink, 1.0);
  #include <colorspace_fragment>
}`;

export interface HatchLook {
  readonly slope: HatchSlope;
  /** Distance between stripes and share of it that is inked, device px. */
  readonly pitchPx: number;
  readonly share: number;
  /** Lies on another body of the same form: is drawn a trifle nearer. */
  readonly onTop?: boolean;
}

export function hatchMaterial({ slope, pitchPx, share, onTop = false }: HatchLook): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader: VERTEX,
    fragmentShader: FRAGMENT,
    side: onTop ? FrontSide : DoubleSide,
    polygonOffset: onTop,
    polygonOffsetFactor: -1,
    polygonOffsetUnits: -1,
    uniforms: { ink: { value: new Color() }, slope: { value: SLOPES[slope] }, pitch: { value: pitchPx }, share: { value: share } },
  });
}

export function setHatchInk(material: ShaderMaterial, ink: Color): void {
  (material.uniforms['ink']!.value as Color).copy(ink);
}
