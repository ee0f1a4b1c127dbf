/** The sign of each kind of joint, the same in every flat drawing and list. */
import type { FigureJointKind } from './figure.ts';

const round = (v: number): string => v.toFixed(1);

function circle(r: number): string {
  return `M${round(-r)},0a${round(r)},${round(r)} 0 1,0 ${round(2 * r)},0a${round(r)},${round(r)} 0 1,0 ${round(-2 * r)},0z`;
}

function hexagon(r: number): string {
  const corners = Array.from({ length: 6 }, (_, i) => `${round(r * Math.cos((i * Math.PI) / 3))},${round(r * Math.sin((i * Math.PI) / 3))}`);
  return `M${corners.join('L')}z`;
}

const SYMBOLS: Readonly<Record<FigureJointKind, (r: number) => string>> = {
  /** A ball with its seam. */
  ball: (r) => `${circle(r)}M${round(-r)},0H${round(r)}`,
  /** A pin between two cheeks. */
  hinge: (r) => `M${round(-r)},${round(-0.45 * r)}h${round(2 * r)}v${round(0.9 * r)}h${round(-2 * r)}zM${round(-r)},${round(-r)}v${round(2 * r)}M${round(r)},${round(-r)}v${round(2 * r)}`,
  /** A collar: two rings. */
  swivel: (r) => circle(r) + circle(0.5 * r),
  /** A coil. */
  wire: (r) => `M${round(-r)},${round(r)}L${round(-r / 3)},${round(-r)}L${round(r / 3)},${round(r)}L${round(r)},${round(-r)}`,
  /** A hexagon with the hole for its key. */
  screw: (r) => hexagon(r) + hexagon(0.4 * r),
};

/** SVG path data about the origin, `r` px in radius. */
export function jointSymbol(kind: FigureJointKind, r: number): string {
  return SYMBOLS[kind](r);
}
