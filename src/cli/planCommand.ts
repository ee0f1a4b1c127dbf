/**
 * The work of `npm run plan`: from a clip to plan.json, increments.csv, track.json and summary.txt without a window.
 * Who poses the clip is given, so that everything else can be tested without a browser.
 */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { inspect } from 'node:util';
import { type ErrorCode, NudgebookError, toErrorData } from '../errors.ts';
import type { ExportTake } from '../export/exportTake.ts';
import { incrementsCsv } from '../export/incrementsCsv.ts';
import { bodyFacts, planToJson } from '../export/planJson.ts';
import { readoutsCsv } from '../export/readoutsCsv.ts';
import { summaryText } from '../export/summary.ts';
import { unsureLines, unsureShare } from '../export/unsureText.ts';
import { parseCorrectionsText } from '../book/correctionsSchema.ts';
import { parseTimingText } from '../book/timingSchema.ts';
import { describeRate } from '../footage/rateVerdict.ts';
import { NO_CORRECTIONS, type Corrections } from '../motion/corrections/corrections.ts';
import { fitTake } from '../motion/fit/fitTake.ts';
import { createPlanner } from '../plan/makePlan.ts';
import { validateSettings } from '../plan/validateSettings.ts';
import { requirePerson } from '../pose/requirePerson.ts';
import { foundCount, frameCount } from '../pose/track.ts';
import { trackFromJson } from '../pose/trackJson.ts';
import type { Armature } from '../puppet/armature.ts';
import { parseArmature } from '../puppet/parseArmature.ts';
import { STANDARD_ARMATURE } from '../puppet/standard.ts';
import { sampleMotion } from '../timing/sampleMotion.ts';
import { DEFAULT_TIMING, type TimingSettings } from '../timing/timingSettings.ts';
import { parseArguments, type PlanCommand, USAGE } from './arguments.ts';
import type { poseInBrowser } from './poseInBrowser.ts';
import { type LineStream, progressLine } from './progressLine.ts';
import { makeFolder, writeAll } from './writeAll.ts';

/** What the person can put right by changing the command, the file or the machine's set-up. */
const PERSON_CAN_MEND: readonly ErrorCode[] = [
  'bad-argument', 'file-missing', 'file-empty', 'not-a-video', 'truncated', 'no-video-track', 'codec-unsupported',
  'decode-failed', 'no-frames', 'no-person', 'no-webgl', 'no-webcodecs', 'no-browser', 'bad-armature', 'bad-settings', 'bad-corrections', 'bad-timing',
];

function checkClip(path: string): void {
  if (!existsSync(path)) throw new NudgebookError('file-missing', `There is no file ${path}.`, 'Check the path.');
  const facts = statSync(path);
  if (!facts.isFile()) throw new NudgebookError('file-missing', `${path} is not a file.`, 'Name the clip itself.');
  if (facts.size === 0) throw new NudgebookError('file-empty', `${basename(path)} is empty (0 bytes).`, 'Copy it from the camera again.');
}

function readArmature(path: string | undefined): Armature {
  if (path === undefined) return STANDARD_ARMATURE;
  if (!existsSync(path)) throw new NudgebookError('file-missing', `There is no armature file ${path}.`, 'Check the path after --armature.');
  return parseArmature(readFileSync(path, 'utf8'));
}

function readCorrections({ corrections: path, camera }: PlanCommand): Corrections {
  if (path !== undefined && !existsSync(path)) {
    throw new NudgebookError('file-missing', `There is no corrections file ${path}.`, 'Check the path after --corrections.');
  }
  const corrections = path === undefined ? NO_CORRECTIONS : parseCorrectionsText(readFileSync(path, 'utf8'));
  return { ...corrections, camera: { ...corrections.camera, ...camera } };
}

function readTiming(path: string | undefined): TimingSettings {
  if (path === undefined) return DEFAULT_TIMING;
  if (!existsSync(path)) throw new NudgebookError('file-missing', `There is no timing file ${path}.`, 'Check the path after --timing.');
  return parseTimingText(readFileSync(path, 'utf8'));
}

/** Where the command writes, and who poses its clip. */
export interface CommandSurroundings {
  readonly stdout: Pick<LineStream, 'write'>;
  readonly stderr: LineStream;
  readonly pose: typeof poseInBrowser;
}

async function run(command: PlanCommand, { stdout, stderr, pose }: CommandSurroundings): Promise<void> {
  // Everything that can be wrong with the order is found before minutes are spent on posing.
  checkClip(command.clip);
  validateSettings(command.settings);
  const armature = readArmature(command.armature);
  const corrections = readCorrections(command);
  const timing = readTiming(command.timing);
  makeFolder(command.out);

  const progress = progressLine(stderr);
  const posed = await pose(resolve(command.clip), command.model, (line) => stderr.write(`${line}\n`), progress.tick)
    .finally(progress.end);
  const track = trackFromJson(posed.track);
  requirePerson(track);
  stderr.write('fitting the body to the whole take …\n');
  const body = fitTake(track, command.settings.captureFactor, corrections);
  const planner = createPlanner();
  const suggested = planner.suggestCutoff(track, command.settings, body);
  const settings = command.suggestCutoff && suggested.cutoffHz !== null ? { ...command.settings, cutoffHz: suggested.cutoffHz } : command.settings;
  const plan = planner.plan(track, armature, settings, { body, timing });

  const { facts } = posed;
  const take: ExportTake = {
    name: basename(command.clip),
    hash: facts.hash,
    durationS: facts.durationS,
    frames: frameCount(track),
    framesPosed: foundCount(track),
    width: facts.widthPx,
    height: facts.heightPx,
    model: command.model,
    rateText: describeRate(facts.rate),
  };
  const summary = summaryText({
    take,
    formatText: `${facts.mimeType}, ${facts.codec}`,
    sizeBytes: facts.sizeBytes,
    poseS: posed.elapsedS,
    workers: posed.workers,
    settings,
    suggestedCutoff: suggested,
    fitted: plan.fitted,
    usedCutoffHz: plan.usedCutoffHz,
    armature: armature.name,
    jointCount: plan.joints.length,
    notObservable: plan.joints.filter((joint) => !joint.observable).map((joint) => joint.name),
    stepCount: plan.stepCount,
    exposureCount: plan.exposureCount,
    timing,
    bentTime: plan.bentTime,
    unsureShare: unsureShare(plan),
    unsure: unsureLines(plan),
    warnings: [...facts.warnings, ...plan.warnings],
  });
  const poses = sampleMotion(planner.motion(track, settings, body), plan.sourceTimeS);
  writeAll(command.out, {
    'plan.json': `${JSON.stringify(planToJson(plan, take, settings, bodyFacts(body), timing, poses), null, 1)}\n`,
    'increments.csv': incrementsCsv(plan),
    ...(command.readouts ? { 'readouts.csv': readoutsCsv(plan, poses) } : {}),
    'track.json': `${JSON.stringify(posed.track)}\n`,
    'summary.txt': summary,
  });
  stdout.write(summary);
}

/**
 * @param words what stands after `npm run plan --`
 * @returns exit status: 0 only if all files were written (or help was asked for); 2 with one plain line for what the person can
 *   put right; 1 for a failure of the program itself
 */
export async function planCommand(words: readonly string[], surroundings: CommandSurroundings): Promise<number> {
  const { stdout, stderr } = surroundings;
  try {
    const command = parseArguments(words);
    if (command === 'help') {
      stdout.write(`${USAGE}\n`);
      return 0;
    }
    await run(command, surroundings);
    return 0;
  } catch (thrown) {
    const { code, sentence, tip } = toErrorData(thrown);
    stderr.write(`${sentence} ${tip}\n`);
    if (PERSON_CAN_MEND.includes(code)) return 2;
    // A fault of ours: whoever reports it needs the trace.
    stderr.write(`${inspect(thrown)}\n`);
    return 1;
  }
}
