/** What posing answers about the demo's clip, without posing it: the track that ships with the app. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PROJECT_FOLDER } from '../../scripts/serve/projectFolder.ts';
import type { PoseAnswer } from '../../src/cli/lab.ts';
import { rateVerdict } from '../../src/footage/rateVerdict.ts';
import type { TrackJson } from '../../src/pose/trackJson.ts';

const { clipHash, track } = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'src/app/demo/one-leg-reach.track.json'), 'utf8')) as { clipHash: string; track: TrackJson };

export const DEMO_ANSWER: PoseAnswer = {
  facts: {
    name: 'one-leg-reach.webm', sizeBytes: 1e6, hash: clipHash, mimeType: 'video/webm', codec: 'vp09.00.10.08', widthPx: track.widthPx, heightPx: track.heightPx,
    rotationDeg: 0, timesS: track.timesS, durationS: track.timesS.length / 30, rate: rateVerdict(track.timesS), warnings: [],
  },
  track, elapsedS: 8, framesPerS: 20, workers: 2,
};
