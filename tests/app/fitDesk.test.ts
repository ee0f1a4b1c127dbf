/** What the worker of the fit hands over to the page must not be what it goes on from itself. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { createFitDesk } from '../../src/app/fit/fitDesk.ts';
import { memoryOf } from '../../src/app/worker/memoryOf.ts';
import { NO_CORRECTIONS } from '../../src/motion/corrections/corrections.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';

it('works in one correction after the other, though each answer is handed over', () => {
  const text = readFileSync(join(import.meta.dirname, '..', '..', 'src', 'app', 'demo', 'one-leg-reach.track.json'), 'utf8');
  const track = trackFromJson((JSON.parse(text) as { track: unknown }).track);
  const frames = track.timesS.length;
  const answer = createFitDesk(() => undefined);
  const placed = [{ timeS: track.timesS[50]!, landmark: 'leftElbow', x: 0.66, y: 0.31 }] as const;
  const asked = [NO_CORRECTIONS, { ...NO_CORRECTIONS, placed }, NO_CORRECTIONS];
  const heard = asked.map((corrections, k) => {
    const said = answer({ track: k === 0 ? track : null, captureFactor: 1, corrections });
    return structuredClone(said, { transfer: memoryOf(said) });
  });
  const bodies = heard.map((said) => {
    if (said.kind !== 'fitted') throw new Error(JSON.stringify(said));
    return said.body;
  });
  for (const body of bodies) {
    expect(body.timesS).toHaveLength(frames);
    expect(body.pointsM).toHaveLength(frames * 33 * 3);
  }
  // Taking the correction back gives the fit from before.
  expect(bodies[2]!.pointsM).toEqual(bodies[0]!.pointsM);
  expect(bodies[1]!.pointsM).not.toEqual(bodies[0]!.pointsM);
}, 30_000);

it('says what went wrong where no track was sent', () => {
  expect(createFitDesk(() => undefined)({ track: null, captureFactor: 1, corrections: NO_CORRECTIONS }).kind).toBe('failed');
});
