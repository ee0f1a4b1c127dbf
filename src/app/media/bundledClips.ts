/**
 * The clips that come with the program, rendered from a figure of its own. Names are those of the files under
 * `reference-clips/`, served from the app's own origin.
 */
export interface BundledClip {
  /** File name without its ending; also what `?clip=` takes. */
  readonly name: string;
  readonly title: string;
  readonly about: string;
}

export const DEMO_CLIP = 'one-leg-reach';

export const BUNDLED_CLIPS: readonly BundledClip[] = [
  { name: 'one-leg-reach', title: 'Marla’s jar', about: 'on one leg, reaching for the high shelf' },
  { name: 'arm-raise', title: 'Arm raise', about: 'up, a pause half-way, and on' },
  { name: 'squat', title: 'Squat', about: 'down and up again' },
  { name: 'walk', title: 'Walk', about: 'two cycles and more' },
];

/** Address of a bundled clip's footage, relative to the page. */
export function clipAddress(name: string): string {
  return `reference-clips/${name}.webm`;
}

/** Address of the measured track that ships for a bundled clip (the demo only), or `null`; it holds a ShippedTrack. */
export function clipTrackAddress(name: string): string | null {
  return name === DEMO_CLIP ? new URL('../demo/one-leg-reach.track.json', import.meta.url).href : null;
}

/** Which bundled clip the page's query asks for: `?demo`, `?clip=squat`; `undefined` where none is asked for. */
export function askedClip(query: string): string | undefined {
  const asked = new URLSearchParams(query);
  if (asked.has('demo')) return DEMO_CLIP;
  return asked.get('clip') ?? undefined;
}
