import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { contentHash } from '../../src/footage/contentHash.ts';
import { foundCount, frameCount } from '../../src/pose/track.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';
import { PROJECT_FOLDER } from '../../scripts/serve/projectFolder.ts';

it('the track that ships with the demo was measured in the clip that ships (else: npm run demo-track)', async () => {
  const shipped = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'src/app/demo/one-leg-reach.track.json'), 'utf8')) as { clipHash: string; track: unknown };
  const clip = readFileSync(join(PROJECT_FOLDER, 'reference-clips/one-leg-reach.webm'));
  expect(shipped.clipHash).toBe((await contentHash({ kind: 'blob', blob: new Blob([clip]), name: 'clip' })).hash);
  const track = trackFromJson(shipped.track);
  expect(track.model).toBe('full');
  expect(foundCount(track)).toBe(frameCount(track));
});
