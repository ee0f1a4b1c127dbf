/**
 * How the puppet is looked at: from where, how near, with what beside it. Not saved with the book, and not React state alone:
 * the picture is repainted from here without a render.
 */
import { createStore } from 'zustand/vanilla';
import { orbited, type View, VIEWS, type ViewName } from '../../charts/figure/view.ts';
import type { CurveAxis } from '../../puppet/puppetSettings.ts';
import { repaintPlayhead } from '../state/playhead.ts';

/** What stands beside the picture. */
export const PUPPET_PARTS = ['moves', 'measures', 'sources', 'curves'] as const;
export type PuppetPart = (typeof PUPPET_PARTS)[number];

export interface PuppetView {
  readonly part: PuppetPart;
  /** Name of the joint that is looked at, or `null`. */
  readonly picked: string | null;
  /** Of a hand curve: which axis is drawn (`null`: the joint's first) and which key is picked (−1: none). */
  readonly curveAxis: CurveAxis | null;
  readonly curveKey: number;
  readonly view: View;
  /** Times larger than where the whole figure fits. */
  readonly zoom: number;
  /** How far the paper is shifted, px of the picture. */
  readonly shiftPx: readonly [number, number];
  /** The step before and the step after are drawn as well. */
  readonly ghosts: boolean;
  /** The joints' moves are written on the picture. */
  readonly labels: boolean;
}

export const puppetView = createStore<PuppetView>(() => ({
  part: 'moves', picked: null, curveAxis: null, curveKey: -1, view: VIEWS.turned, zoom: 1, shiftPx: [0, 0], ghosts: true, labels: false,
}));

puppetView.subscribe(repaintPlayhead);

export const ZOOM = { min: 0.5, max: 12 } as const;
/** What one press of an arrow key turns, degrees; six of them make a quarter turn. */
const KEY_TURN_DEG = 15;

/** Looks from a named side; the whole figure is in the picture again. */
export function lookFrom(name: ViewName): void {
  puppetView.setState({ view: VIEWS[name], zoom: 1, shiftPx: [0, 0] });
}

/** Goes round the puppet. */
export function orbitBy(turnDeg: number, raiseDeg: number): void {
  puppetView.setState((s) => ({ view: orbited(s.view, turnDeg, raiseDeg) }));
}

/** Comes nearer by a factor; the point of the paper at `fromMiddlePx` keeps its place. */
export function zoomBy(factor: number, fromMiddlePx: readonly [number, number] = [0, 0]): void {
  puppetView.setState((s) => {
    const zoom = Math.max(ZOOM.min, Math.min(ZOOM.max, s.zoom * factor));
    const by = zoom / s.zoom;
    return { zoom, shiftPx: [fromMiddlePx[0] - (fromMiddlePx[0] - s.shiftPx[0]) * by, fromMiddlePx[1] - (fromMiddlePx[1] - s.shiftPx[1]) * by] };
  });
}

/** Shifts the paper under the glass. */
export function shiftBy(xPx: number, yPx: number): void {
  puppetView.setState((s) => ({ shiftPx: [s.shiftPx[0] + xPx, s.shiftPx[1] + yPx] }));
}

/** Looks at a joint by name, or at none. */
export function pickJoint(name: string | null): void {
  puppetView.setState((s) => (s.picked === name ? s : { picked: name, curveAxis: null, curveKey: -1 }));
}

export const PUPPET_COMMANDS = {
  viewFront: () => lookFrom('front'),
  viewSide: () => lookFrom('side'),
  viewTop: () => lookFrom('top'),
  viewTurned: () => lookFrom('turned'),
  orbitLeft: () => orbitBy(KEY_TURN_DEG, 0),
  orbitRight: () => orbitBy(-KEY_TURN_DEG, 0),
  orbitUp: () => orbitBy(0, KEY_TURN_DEG),
  orbitDown: () => orbitBy(0, -KEY_TURN_DEG),
  toggleGhosts: () => puppetView.setState((s) => ({ ghosts: !s.ghosts })),
  toggleLabels: () => puppetView.setState((s) => ({ labels: !s.labels })),
} as const;

/** Whether a command only means something where the puppet is shown. */
export function isPuppetCommand(name: string): name is keyof typeof PUPPET_COMMANDS {
  return Object.hasOwn(PUPPET_COMMANDS, name);
}
