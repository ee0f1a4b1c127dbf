/**
 * The command line as a person calls it: real clips in, four files out; one plain line and status 2 for what is wrong.
 */
import { spawn } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import Ajv2020 from 'ajv/dist/2020.js';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PROJECT_FOLDER } from '../../scripts/serve/projectFolder.ts';
import { PIP } from '../../src/puppet/examples/child.ts';
import { ffmpeg, HAS_VIDEO_TOOLS, hasEncoder, pattern } from './footage-pose/videoTools.ts';

let folder: string;
beforeAll(() => { folder = mkdtempSync(join(tmpdir(), 'nudgebook-cli-')); });
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

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

/** Runs that know nothing of each other, two at a time: starting takes longer than refusing. */
async function inPairs<T>(cases: readonly T[], run: (one: T) => Promise<void>): Promise<void> {
  for (let k = 0; k < cases.length; k += 2) await Promise.all(cases.slice(k, k + 2).map(run));
}

const clip = (name: string): string => join(PROJECT_FOLDER, 'reference-clips', `${name}.webm`);

interface PlanFile {
  take: { durationS: number; frames: number; width: number; height: number };
  rate: number;
  on: number;
  steps: { step: number; exposure: number; holds: number; sourceTimeS: number; joints: Record<string, { kind: string; angleDeg: number | null; orderedAngleDeg: number | null; incrementDeg: number | null; rotation: number[] | null; confidence: number }> }[];
}

/** What a plan file says beside that about a puppet of bones and joints. */
interface PuppetPlanFile {
  steps: {
    joints: Record<string, { kind: string; angleDeg: number | null; orderedAngleDeg: number | null; incrementDeg: number | null; keyTurns: number | null }>;
    points: Record<string, { atMm: number[]; travelMm: number | null }>;
  }[];
  datums: { step: number; point: string; heightMm: number; fromMarkMm: number }[];
}

describe('npm run plan', () => {
  it.each(['one-leg-reach', 'arm-raise', 'squat', 'walk'])('plans %s: every frame posed, four files that agree', async (name) => {
    const out = join(folder, name);
    const ended = await plan(clip(name), '--out', out, '--rate', '24', '--on', '2', '--model', 'lite');
    expect(ended.err).not.toMatch(/error/i);
    expect(ended.status).toBe(0);
    expect(readdirSync(out).sort()).toEqual(['increments.csv', 'plan.json', 'summary.txt', 'track.json']);

    const made = JSON.parse(readFileSync(join(out, 'plan.json'), 'utf8')) as PlanFile;
    const schema = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'docs/plan.schema.json'), 'utf8')) as object;
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

    expect(readFileSync(join(out, 'summary.txt'), 'utf8')).toBe(ended.out);
  });

  it('takes a puppet with fewer joints', async () => {
    const armature = join(folder, 'stiff-neck.json');
    writeFileSync(armature, JSON.stringify({
      format: 'nudgebook-armature', version: 1, name: 'Stiff neck', heightMm: 200,
      joints: [{ name: 'pelvis', kind: 'ball' }, { name: 'head', kind: 'ball' }, { name: 'leftElbow', kind: 'hinge' }],
    }));
    const out = join(folder, 'stiff-neck');
    const ended = await plan(clip('arm-raise'), '--out', out, '--armature', armature, '--model', 'lite', '--on', '4');
    expect(ended.status).toBe(0);
    const made = JSON.parse(readFileSync(join(out, 'plan.json'), 'utf8')) as PlanFile;
    expect(Object.keys(made.steps[0]!.joints).sort()).toEqual(['head', 'leftElbow', 'pelvis']);
  });

  it('takes marks, holds and extremes on steps from a timing file, and refuses one that is wrong', async () => {
    const timing = join(folder, 'timing.json');
    writeFileSync(timing, JSON.stringify({
      marks: [{ id: 'a', sourceS: 1, filmS: 2, locked: false, kind: 'placed', name: 'up' }], holdSpans: [{ fromExposure: 25, on: 1 }], snapJoints: ['rightShoulder'], gauge: '16 mm',
    }));
    const out = join(folder, 'timed');
    const ended = await plan(clip('arm-raise'), '--out', out, '--timing', timing, '--model', 'lite');
    expect(ended.status, ended.err).toBe(0);
    const made = JSON.parse(readFileSync(join(out, 'plan.json'), 'utf8')) as PlanFile;
    const ajv = new Ajv2020({ allErrors: true, strict: false });
    expect(ajv.validate(JSON.parse(readFileSync(join(PROJECT_FOLDER, 'docs/plan.schema.json'), 'utf8')) as object, made), JSON.stringify(ajv.errors)).toBe(true);
    // two seconds of film at 24 later the second of the take is there, on ones by then
    const at = made.steps.find(({ exposure }) => exposure === 49)!;
    expect([at.sourceTimeS, at.holds, made.steps[0]!.holds]).toEqual([1, 1, 2]);
    expect(ended.out).toMatch(/Retimed: +1 mark, 0 locked; held by hand: 1 from exposure 25/);
    writeFileSync(timing, '{"marks":3}');
    const refused = await plan(clip('arm-raise'), '--out', out, '--timing', timing);
    expect([refused.status, refused.err.trim().split('\n').length]).toEqual([2, 1]);
    expect(refused.err).toContain('marks');
  });

  it('takes an armature of bones and joints: exact and ordered turns, turns of a key, travel and readings in both files', async () => {
    const armature = join(folder, 'pip.armature.json');
    // the jaw opens as the elbow bends
    writeFileSync(armature, JSON.stringify({ ...PIP, drives: [{ joint: 'jaw', from: 'leftElbow', gain: 0.2 }] }));
    const out = join(folder, 'pip');
    const ended = await plan(clip('arm-raise'), '--out', out, '--armature', armature, '--model', 'lite', '--on', '4');
    expect(ended.status, ended.err).toBe(0);
    const made = JSON.parse(readFileSync(join(out, 'plan.json'), 'utf8')) as PuppetPlanFile;
    const ajv = new Ajv2020({ allErrors: true, strict: false });
    expect(ajv.validate(JSON.parse(readFileSync(join(PROJECT_FOLDER, 'docs/plan.schema.json'), 'utf8')) as object, made), JSON.stringify(ajv.errors)).toBe(true);
    expect(Object.keys(made.steps[0]!.joints)).toEqual(expect.arrayContaining(PIP.joints.map(({ name }) => name)));

    const jaw = made.steps.map((step) => step.joints['jaw']!);
    expect(jaw.every(({ kind, keyTurns }) => kind === 'screw' && Math.abs(keyTurns! * 8 - Math.round(keyTurns! * 8)) < 1e-6)).toBe(true);
    const elbow = made.steps.map((step) => step.joints['leftElbow']!);
    for (const { angleDeg, orderedAngleDeg } of elbow) expect(Math.abs(orderedAngleDeg! - angleDeg!)).toBeLessThanOrEqual(0.5 + 0.2 + 0.01);
    expect(elbow.reduce((sum, { incrementDeg }) => sum + incrementDeg!, 0)).toBeCloseTo(elbow.at(-1)!.orderedAngleDeg! - elbow[0]!.orderedAngleDeg!, 1);

    // travel is the way between the places that are told, and a reading is the height of such a place
    const tip = made.steps.map((step) => step.points['leftHand tip']!);
    for (let s = 1; s < tip.length; s++) {
      const [a, b] = [tip[s - 1]!.atMm, tip[s]!.atMm];
      expect(tip[s]!.travelMm).toBeCloseTo(Math.hypot(b[0]! - a[0]!, b[1]! - a[1]!, b[2]! - a[2]!), 0);
    }
    expect(made.datums.length).toBeGreaterThan(0);
    for (const { step, point, heightMm } of made.datums) expect(heightMm).toBeCloseTo(made.steps[step - 1]!.points[point]!.atMm[1]!, 1);

    const rows = parse(readFileSync(join(out, 'increments.csv'), 'utf8'), { columns: true }) as Record<string, string>[];
    const column = (words: RegExp): string => Object.keys(rows[0]!).find((head) => words.test(head))!;
    expect(rows.map((row) => Number(row[column(/^(?=.*jaw).*key \(turns\)/i)]))).toEqual(jaw.map(({ keyTurns }) => expect.closeTo(keyTurns!, 3)));
    expect(rows.map((row) => Number(row['leftHand tip travel (mm)']))).toEqual(tip.map(({ travelMm }) => expect.closeTo(travelMm!, 1)));
  });

  it('refuses each bad order with one line and status 2, and writes nothing', async () => {
    const empty = join(folder, 'empty.mp4');
    writeFileSync(empty, '');
    const text = join(folder, 'shopping.mp4');
    writeFileSync(text, 'flour, yeast, salt\n'.repeat(400));
    const cut = join(folder, 'cut.webm');
    writeFileSync(cut, readFileSync(clip('arm-raise')).subarray(0, 300));
    const badArmature = join(folder, 'bad-armature.json');
    writeFileSync(badArmature, JSON.stringify({ format: 'nudgebook-armature', version: 1, name: 'x', heightMm: 200, joints: [{ name: 'leftElbw', kind: 'hinge' }] }));
    const out = join(folder, 'nothing');
    const cases: [string[], RegExp][] = [
      [[], /No clip is named/],
      [[clip('walk')], /--out DIR is missing/],
      [[clip('walk'), '--out', out, '--rate', 'fast'], /--rate is "fast"/],
      [[clip('walk'), '--out', out, '--rate', '0'], /rate/i],
      [[clip('walk'), '--out', out, '--on', '5'], /--on is "5"/],
      [[clip('walk'), '--out', out, '--model', 'huge'], /--model is "huge"/],
      [[clip('walk'), '--out', out, '--speed', '2'], /no option --speed/],
      [[join(folder, 'none.mp4'), '--out', out], /There is no file/],
      [[empty, '--out', out], /empty/],
      [[text, '--out', out], /shopping\.mp4/],
      [[cut, '--out', out], /cut\.webm/],
      [[clip('walk'), '--out', out, '--armature', badArmature], /leftElbw/],
    ];
    await inPairs(cases, async ([words, line]) => {
      const ended = await plan(...words);
      expect(ended.status, words.join(' ')).toBe(2);
      expect(ended.err, words.join(' ')).toMatch(line);
      expect(ended.err.trim().split('\n').length, ended.err).toBe(1);
    });
    expect(existsSync(join(out, 'plan.json'))).toBe(false);
  });

  it.skipIf(!HAS_VIDEO_TOOLS)('refuses footage that holds no take: nobody in it, sound only, cut off, a codec that is not decoded here', async () => {
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
      const ended = await plan(file(name), '--out', file('none'), '--model', 'lite');
      // Where the machine's browser can decode HEVC, the clip opens and has nobody in it: status 2 as well.
      expect(ended.status, name).toBe(2);
      const last = ended.err.trim().split('\n').at(-1)!;
      expect(last, ended.err).toMatch(name === 'hevc.mp4' ? /HEVC|nobody|no person/i : line);
    });
    expect(existsSync(join(file('none'), 'plan.json'))).toBe(false);
  });

  it('leaves the former results alone when a later run fails', async () => {
    const out = join(folder, 'arm-raise');
    const before = readFileSync(join(out, 'plan.json'), 'utf8');
    copyFileSync(clip('arm-raise'), join(folder, 'again.webm'));
    const ended = await plan(join(folder, 'again.webm'), '--out', out, '--model', 'none');
    expect(ended.status).toBe(2);
    expect(readFileSync(join(out, 'plan.json'), 'utf8')).toBe(before);
  });
});
