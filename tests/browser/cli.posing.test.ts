/**
 * The command line as a person calls it: the reference clips in, four files out, what moves when in them; one plain line and status 2
 * for footage that holds no take. What it makes of its options, and what it refuses without posing, is in `tests/cli`.
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import Ajv2020 from 'ajv/dist/2020.js';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clipFiles } from '../../scripts/accuracy/clipFiles.ts';
import { readTruth, type Truth } from '../../scripts/accuracy/truthFile.ts';
import { foundArmPause, trueArmPause, trueLandings } from '../../scripts/pace/clipChecks.ts';
import { PROJECT_FOLDER } from '../../scripts/serve/projectFolder.ts';
import { planCommand } from '../../src/cli/planCommand.ts';
import { poseInBrowser } from '../../src/cli/poseInBrowser.ts';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import type { Track } from '../../src/pose/track.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';
import { cadencePerMin, thighPassings } from '../../src/timing/moments/cadence.ts';
import { ffmpeg, HAS_VIDEO_TOOLS, hasEncoder, pattern } from './footage-pose/videoTools.ts';

let folder: string;
beforeAll(() => { folder = mkdtempSync(join(tmpdir(), 'nudgebook-cli-')); });
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** As the shell runs it. */
function plan(...words: string[]): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--import', 'tsx', join(PROJECT_FOLDER, 'src/cli/main.ts'), ...words], { cwd: PROJECT_FOLDER });
    let out = '';
    let err = '';
    child.stdout.on('data', (piece: Buffer) => { out += piece.toString(); });
    child.stderr.on('data', (piece: Buffer) => { err += piece.toString(); });
    child.on('error', reject);
    child.on('close', (status) => resolve({ status, out, err }));
  });
}

/** The same in this process, for runs that differ in their footage alone: no Node is started anew, a browser is. */
async function planHere(...words: string[]): Promise<Ended> {
  let out = '';
  let err = '';
  const status = await planCommand(words, {
    stdout: { write: (text) => { out += text; } },
    stderr: { write: (text) => { err += text; } },
    pose: poseInBrowser,
  });
  return { status, out, err };
}

/** Runs that know nothing of each other, two at a time: while one poses, the other starts or plans. */
async function inPairs<T>(cases: readonly T[], run: (one: T) => Promise<void>): Promise<void> {
  const waiting = [...cases];
  const lane = async (): Promise<void> => {
    for (let one = waiting.shift(); one !== undefined; one = waiting.shift()) await run(one);
  };
  await Promise.all([lane(), lane()]);
}

const clip = (name: string): string => join(PROJECT_FOLDER, 'reference-clips', `${name}.webm`);
const schema = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'docs/plan.schema.json'), 'utf8')) as object;

interface PlanFile {
  take: { frames: number };
  rate: number;
  on: number;
  steps: { step: number; exposure: number; joints: Record<string, { angleDeg: number | null; orderedAngleDeg: number | null; incrementDeg: number | null }> }[];
}

/** The clips of which moments are asked are posed with the default model. */
const CLIPS = [['one-leg-reach', 'lite'], ['arm-raise', 'full'], ['squat', 'lite'], ['walk', 'full']] as const;

describe('npm run plan', () => {
  const ended = new Map<string, Ended>();
  beforeAll(() => inPairs(CLIPS, async ([name, model]) => {
    ended.set(name, await plan(clip(name), '--out', join(folder, name), '--rate', '24', '--on', '2', '--model', model));
  }), 600_000);

  it.each(CLIPS)('plans %s with the model %s: every frame posed, four files that agree', (name) => {
    const out = join(folder, name);
    const { status, out: said, err } = ended.get(name)!;
    expect(err).not.toMatch(/error/i);
    expect(status).toBe(0);
    expect(readdirSync(out).sort()).toEqual(['increments.csv', 'plan.json', 'summary.txt', 'track.json']);

    const made = JSON.parse(readFileSync(join(out, 'plan.json'), 'utf8')) as PlanFile;
    const ajv = new Ajv2020({ allErrors: true, strict: false });
    expect(ajv.validate(schema, made), JSON.stringify(ajv.errors)).toBe(true);
    expect(made.rate).toBe(24);
    expect(made.on).toBe(2);
    // Steps start between the first and the last frame; our clips have 30 frames a second from 0 on.
    expect(made.steps.length).toBe(Math.floor(((made.take.frames - 1) / 30) * 12 + 1e-6) + 1);
    expect(made.steps.every((s, i) => s.step === i + 1 && s.exposure === 2 * i + 1)).toBe(true);

    const track = JSON.parse(readFileSync(join(out, 'track.json'), 'utf8')) as { frames: unknown[] };
    expect(track.frames.length).toBe(made.take.frames);
    expect(track.frames.every((frame) => frame !== null)).toBe(true);

    const rows = parse(readFileSync(join(out, 'increments.csv'), 'utf8'), { columns: true }) as Record<string, string>[];
    expect(rows.length).toBe(made.steps.length);

    // The ordered moves of a hinge add up to its whole ordered move (to the digits of the file), which keeps within half a smallest move (1°) of the exact pose.
    const knee = made.steps.map((s) => s.joints['leftKnee']!);
    const sum = knee.reduce((total, j) => total + j.incrementDeg!, 0);
    expect(sum).toBeCloseTo(knee.at(-1)!.orderedAngleDeg! - knee[0]!.orderedAngleDeg!, 1);
    expect(Math.abs(knee.at(-1)!.orderedAngleDeg! - knee.at(-1)!.angleDeg!)).toBeLessThanOrEqual(0.5 + 0.001);

    expect(readFileSync(join(out, 'summary.txt'), 'utf8')).toBe(said);
  });

  it('refuses a bad order with one line and status 2', async () => {
    const refused = await plan(clip('walk'), '--out', join(folder, 'nothing'), '--on', '5');
    expect([refused.status, refused.out, refused.err.trim().split('\n').length]).toEqual([2, '', 1]);
    expect(refused.err).toContain('--on is "5"');
  });

  describe('moments from video, against the truth beside the clips', () => {
    /** One step on twos at 24. */
    const stepS = 1 / 12;
    const truthOf = (name: string): Truth => readTruth(clipFiles().there.find((one) => one.name === name)!.truth);
    const trackOf = (name: string): Track => trackFromJson(JSON.parse(readFileSync(join(folder, name, 'track.json'), 'utf8')));

    it('the pause of the raised arm begins and ends within a step of its truth', () => {
      const found = foundArmPause(trackOf('arm-raise'));
      trueArmPause(truthOf('arm-raise')).forEach((wantedS, k) => expect(Math.abs(found![k]! - wantedS)).toBeLessThan(stepS));
    });

    it('the walk has the cadence of its truth within 5 %, and one that people walk at', () => {
      const track = trackOf('walk');
      const found = cadencePerMin(thighPassings(trackToMotion(track, DEFAULT_SETTINGS, fitTake(track, 1))));
      // single landings of the truth are known to a frame: 1/30 s of five steps, 1.3 %
      expect(Math.abs(found / cadencePerMin(trueLandings(truthOf('walk'))) - 1)).toBeLessThan(0.05);
      // walking in the street, 95 to 160 steps a minute (sample in Japan, 1987)
      expect(found).toBeGreaterThan(95);
      expect(found).toBeLessThan(160);
    });
  });
});

describe('footage that holds no take', () => {
  it('is refused with one line: a text, a clip cut off in its head', async () => {
    const text = join(folder, 'shopping.mp4');
    writeFileSync(text, 'flour, yeast, salt\n'.repeat(400));
    const cut = join(folder, 'cut.webm');
    writeFileSync(cut, readFileSync(clip('arm-raise')).subarray(0, 300));
    const out = join(folder, 'nothing');
    await inPairs([text, cut], async (file) => {
      const ended = await planHere(file, '--out', out);
      expect(ended.status, file).toBe(2);
      expect(ended.err, file).toContain(file === text ? 'shopping.mp4' : 'cut.webm');
      expect(ended.err.trim().split('\n').length, ended.err).toBe(1);
    });
    expect(existsSync(join(out, 'plan.json'))).toBe(false);
  });

  it.skipIf(!HAS_VIDEO_TOOLS)('is refused: nobody in it, sound only, cut off, a codec that is not decoded here', async () => {
    const file = (name: string): string => join(folder, name);
    ffmpeg('-f', 'lavfi', '-i', pattern('10', 1, '320x240'), '-c:v', 'libvpx-vp9', '-b:v', '300k', file('nobody.webm'));
    ffmpeg('-f', 'lavfi', '-i', 'sine=d=1', '-c:a', 'aac', file('sound.mp4'));
    ffmpeg('-f', 'lavfi', '-i', pattern('30', 2), '-c:v', 'libx264', '-pix_fmt', 'yuv420p', file('whole.mp4'));
    const whole = readFileSync(file('whole.mp4'));
    writeFileSync(file('half.mp4'), whole.subarray(0, whole.length / 2));
    ffmpeg('-f', 'lavfi', '-i', pattern('30', 1), '-c:v', 'mpeg4', file('old.mp4'));
    const cases: [string, RegExp][] = [
      ['nobody.webm', /nobody|no person/i],
      ['sound.mp4', /sound\.mp4/],
      ['half.mp4', /half\.mp4/],
      ['old.mp4', /MPEG-4/],
    ];
    if (hasEncoder('libx265')) {
      ffmpeg('-f', 'lavfi', '-i', pattern('30', 1), '-c:v', 'libx265', '-x265-params', 'log-level=none', file('hevc.mp4'));
      cases.push(['hevc.mp4', /HEVC/]);
    }
    await inPairs(cases, async ([name, line]) => {
      const ended = await planHere(file(name), '--out', file('none'), '--model', 'lite');
      // Where the machine's browser can decode HEVC, the clip opens and has nobody in it: status 2 as well.
      expect(ended.status, name).toBe(2);
      const last = ended.err.trim().split('\n').at(-1)!;
      expect(last, ended.err).toMatch(name === 'hevc.mp4' ? /HEVC|nobody|no person/i : line);
    });
    expect(existsSync(join(file('none'), 'plan.json'))).toBe(false);
  });
});
