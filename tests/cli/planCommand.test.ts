/** The command with posing given: what it makes of a track, what it refuses before anything is posed, and what it says when posing fails. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Ajv2020 from 'ajv/dist/2020.js';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PROJECT_FOLDER } from '../../scripts/serve/projectFolder.ts';
import { type CommandSurroundings, planCommand } from '../../src/cli/planCommand.ts';
import { type ErrorCode, NudgebookError } from '../../src/errors.ts';
import { PIP } from '../../src/puppet/examples/child.ts';
import { DEMO_ANSWER } from './demoAnswer.ts';

let folder: string;
beforeAll(() => { folder = mkdtempSync(join(tmpdir(), 'nudgebook-command-')); });
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const CLIP = join(PROJECT_FOLDER, 'reference-clips', 'one-leg-reach.webm');
const posesTheDemo: CommandSurroundings['pose'] = () => Promise.resolve(DEMO_ANSWER);

interface Ended {
  readonly status: number;
  readonly out: string;
  readonly err: string;
  /** How often a clip was given to be posed. */
  readonly posed: number;
}

async function plan(pose: CommandSurroundings['pose'], ...words: string[]): Promise<Ended> {
  const said = { out: '', err: '' };
  let posed = 0;
  const status = await planCommand(words, {
    stdout: { write: (text) => { said.out += text; } },
    stderr: { write: (text) => { said.err += text; } },
    pose: (...given) => {
      posed += 1;
      return pose(...given);
    },
  });
  return { status, ...said, posed };
}

const ajv = new Ajv2020({ allErrors: true, strict: false });
const isPlan = ajv.compile(JSON.parse(readFileSync(join(PROJECT_FOLDER, 'docs/plan.schema.json'), 'utf8')) as object);

function readPlan<T>(out: string): T {
  const made: unknown = JSON.parse(readFileSync(join(out, 'plan.json'), 'utf8'));
  expect(isPlan(made), JSON.stringify(isPlan.errors)).toBe(true);
  return made as T;
}

function writeJson(name: string, data: unknown): string {
  writeFileSync(join(folder, name), JSON.stringify(data));
  return join(folder, name);
}

describe('a plan', { timeout: 120_000 }, () => {
  it('for a puppet with fewer joints has those alone; readouts are a fifth file', async () => {
    const armature = writeJson('stiff-neck.json', {
      format: 'nudgebook-armature', version: 1, name: 'Stiff neck', heightMm: 200,
      joints: [{ name: 'pelvis', kind: 'ball' }, { name: 'head', kind: 'ball' }, { name: 'leftElbow', kind: 'hinge' }],
    });
    const out = join(folder, 'stiff-neck');
    const ended = await plan(posesTheDemo, CLIP, '--out', out, '--armature', armature, '--on', '4', '--readouts');
    expect([ended.status, ended.posed], ended.err).toEqual([0, 1]);
    const made = readPlan<{ steps: { joints: object }[] }>(out);
    expect(Object.keys(made.steps[0]!.joints).sort()).toEqual(['head', 'leftElbow', 'pelvis']);
    expect(readdirSync(out).sort()).toEqual(['increments.csv', 'plan.json', 'readouts.csv', 'summary.txt', 'track.json']);
    expect(readFileSync(join(out, 'summary.txt'), 'utf8')).toBe(ended.out);
  });

  it('takes marks, holds and extremes on steps from a timing file, and refuses one that is wrong', async () => {
    const timing = writeJson('timing.json', {
      marks: [{ id: 'a', sourceS: 1, filmS: 2, locked: false, kind: 'placed', name: 'up' }], holdSpans: [{ fromExposure: 25, on: 1 }], snapJoints: ['rightShoulder'], gauge: '16 mm',
    });
    const out = join(folder, 'timed');
    const ended = await plan(posesTheDemo, CLIP, '--out', out, '--timing', timing);
    expect(ended.status, ended.err).toBe(0);
    const made = readPlan<{ steps: { exposure: number; holds: number; sourceTimeS: number }[] }>(out);
    // two seconds of film at 24 later the second of the take is there, on ones by then
    const at = made.steps.find(({ exposure }) => exposure === 49)!;
    expect([at.sourceTimeS, at.holds, made.steps[0]!.holds]).toEqual([1, 1, 2]);
    expect(ended.out).toMatch(/Retimed: +1 mark, 0 locked; held by hand: 1 from exposure 25/);
    writeFileSync(timing, '{"marks":3}');
    const refused = await plan(posesTheDemo, CLIP, '--out', out, '--timing', timing);
    expect([refused.status, refused.posed, refused.err.trim().split('\n').length]).toEqual([2, 0, 1]);
    expect(refused.err).toContain('marks');
  });

  it('for an armature of bones and joints has exact and ordered turns, turns of a key, travel and readings in both files', async () => {
    // the jaw opens as the elbow bends
    const armature = writeJson('pip.armature.json', { ...PIP, drives: [{ joint: 'jaw', from: 'leftElbow', gain: 0.2 }] });
    const out = join(folder, 'pip');
    const ended = await plan(posesTheDemo, CLIP, '--out', out, '--armature', armature, '--on', '4');
    expect(ended.status, ended.err).toBe(0);
    const made = readPlan<{
      steps: {
        joints: Record<string, { kind: string; angleDeg: number | null; orderedAngleDeg: number | null; incrementDeg: number | null; keyTurns: number | null }>;
        points: Record<string, { atMm: number[]; travelMm: number | null }>;
      }[];
      datums: { step: number; point: string; heightMm: number; fromMarkMm: number }[];
    }>(out);
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
});

describe('an order that is wrong', () => {
  it.each<[string, (out: string) => string[], RegExp]>([
    ['no clip', () => [], /No clip is named/],
    ['no folder', () => [CLIP], /--out DIR is missing/],
    ['a rate that is no number', (out) => [CLIP, '--out', out, '--rate', 'fast'], /--rate is "fast"/],
    ['a rate of 0', (out) => [CLIP, '--out', out, '--rate', '0'], /rate/i],
    ['on fives', (out) => [CLIP, '--out', out, '--on', '5'], /--on is "5"/],
    ['an unknown model', (out) => [CLIP, '--out', out, '--model', 'huge'], /--model is "huge"/],
    ['an unknown option', (out) => [CLIP, '--out', out, '--speed', '2'], /no option --speed/],
    ['a clip that is not there', (out) => [join(folder, 'none.mp4'), '--out', out], /There is no file/],
    ['a clip that is a folder', (out) => [folder, '--out', out], /is not a file/],
    ['an empty clip', (out) => {
      writeFileSync(join(folder, 'empty.mp4'), '');
      return [join(folder, 'empty.mp4'), '--out', out];
    }, /empty/],
    ['an armature with an unknown joint', (out) => {
      const armature = writeJson('bad-armature.json', { format: 'nudgebook-armature', version: 1, name: 'x', heightMm: 200, joints: [{ name: 'leftElbw', kind: 'hinge' }] });
      return [CLIP, '--out', out, '--armature', armature];
    }, /leftElbw/],
    ['corrections that are not there', (out) => [CLIP, '--out', out, '--corrections', join(folder, 'none.json')], /no corrections file/],
    ['a folder that is a file', () => [CLIP, '--out', writeJson('file.json', {})], /can't be made|is a file/],
  ])('%s: refused with one line and status 2 before anything is posed, and nothing is written', async (name, words, line) => {
    const out = join(folder, 'nothing', name.replaceAll(' ', '-'));
    const ended = await plan(posesTheDemo, ...words(out));
    expect([ended.status, ended.posed], ended.err).toEqual([2, 0]);
    expect(ended.err).toMatch(line);
    expect(ended.err.trim().split('\n').length, ended.err).toBe(1);
    expect(() => readdirSync(out)).toThrow('ENOENT');
  });
});

describe('posing that fails', () => {
  const failsWith = (code: ErrorCode): CommandSurroundings['pose'] => () => Promise.reject(new NudgebookError(code, 'This is wrong.', 'Do that.'));
  const former = 'the plan of yesterday';

  it.each<ErrorCode>(['not-a-video', 'truncated', 'no-video-track', 'codec-unsupported', 'decode-failed', 'no-frames', 'no-webgl', 'no-webcodecs', 'no-browser'])(
    '%s: one line, status 2, and the former results stay', async (code) => {
      const out = mkdtempSync(join(folder, 'former-'));
      writeFileSync(join(out, 'plan.json'), former);
      const ended = await plan(failsWith(code), CLIP, '--out', out);
      expect(ended).toEqual({ status: 2, out: '', err: 'This is wrong. Do that.\n', posed: 1 });
      expect(readdirSync(out).map((name) => [name, readFileSync(join(out, name), 'utf8')])).toEqual([['plan.json', former]]);
    });

  it('for a reason of our own: status 1, with the trace below the line', async () => {
    const ended = await plan(() => Promise.reject(new Error('a null where none should be')), CLIP, '--out', join(folder, 'fault'));
    expect(ended.status).toBe(1);
    expect(ended.err).toMatch(/a null where none should be[\s\S]*\n\s+at /);
  });

  it('to find anybody: status 2', async () => {
    const nobody = { ...DEMO_ANSWER, track: { ...DEMO_ANSWER.track, frames: DEMO_ANSWER.track.frames.map(() => null) } };
    const ended = await plan(() => Promise.resolve(nobody), CLIP, '--out', join(folder, 'nobody'));
    expect(ended.status).toBe(2);
    expect(ended.err).toMatch(/nobody|no person/i);
  });
});

it('says how it is used when asked', async () => {
  const ended = await plan(posesTheDemo, '--help');
  expect([ended.status, ended.err, ended.posed]).toEqual([0, '', 0]);
  expect(ended.out).toContain('--out DIR');
});
