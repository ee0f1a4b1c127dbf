/**
 * What happened in a run without a window, as a page of plain text.
 */
import type { CutoffSuggestion } from '../motion/suggestCutoff.ts';
import type { PlanSettings } from '../plan/settings.ts';
import type { Plan } from '../plan/plan.ts';
import { feetWords } from '../timing/counts/filmFeet.ts';
import type { TimingSettings } from '../timing/timingSettings.ts';
import type { ExportTake } from './exportTake.ts';
import { anglesFrom } from './planJson.ts';

export interface SummaryFacts {
  readonly take: ExportTake;
  /** Container and codec as words, e.g. "video/mp4, avc1.64001f". */
  readonly formatText: string;
  readonly sizeBytes: number;
  /** Wall-clock seconds of the pose run. */
  readonly poseS: number;
  readonly workers: number;
  readonly settings: PlanSettings;
  readonly fitted: boolean;
  readonly usedCutoffHz: number | null;
  readonly suggestedCutoff: CutoffSuggestion;
  readonly armature: string;
  readonly jointCount: number;
  /** Names of joints that the footage can never show. */
  readonly notObservable: readonly string[];
  readonly stepCount: number;
  readonly exposureCount: number;
  readonly timing: TimingSettings;
  readonly bentTime: Plan['bentTime'];
  /** Share of the values of observable joints that are unsure, 0..1, and what is to be said of them (`unsureText.ts`). */
  readonly unsureShare: number;
  readonly unsure: readonly string[];
  readonly warnings: readonly string[];
}

/** Lines of plain text, each ended with a line feed. Seconds, pixels and counts as labelled. */
export function summaryText(facts: SummaryFacts): string {
  const { take, settings } = facts;
  const missed = take.frames - take.framesPosed;
  const speed = facts.poseS > 0 ? `${(take.frames / facts.poseS).toFixed(1)} frames a second` : 'not measured';
  const rows: readonly (readonly [string, string])[] = [
    ['Clip', oneLine(take.name)],
    ['Content hash', take.hash],
    ['Format', `${oneLine(facts.formatText)}, ${facts.sizeBytes} bytes`],
    ['Picture', `${take.width} × ${take.height} px, ${oneLine(take.rateText)} frames a second`],
    ['Length', `${take.durationS.toFixed(3)} s, ${take.frames} frames`],
    ['Frames posed', `${take.framesPosed} of ${take.frames} (${missed} missed)`],
    ['Pose model', `${take.model}, ${facts.workers} ${facts.workers === 1 ? 'worker' : 'workers'}, ${facts.poseS.toFixed(1)} s, ${speed}`],
    ['Part used', `${pointText(settings.inS, 'start')} to ${pointText(settings.outS, 'end')}`],
    ['Capture factor', String(settings.captureFactor)],
    ['Mirrored', settings.mirror ? 'yes' : 'no'],
    ['Angles from', anglesFrom(facts.fitted)],
    ['Smoothing', smoothingText(settings, facts.usedCutoffHz)],
    ['Suggested', suggestionText(facts.suggestedCutoff)],
    ['Film', `${settings.rate} exposures a second, ${settings.on} for each pose, time scale ${settings.timeScale}`],
    ['Steps', lengthText(facts)],
    ['Retimed', retimedText(facts)],
    ['Extremes', extremesText(facts)],
    ['Armature', `${oneLine(facts.armature)}, ${facts.jointCount} joints`],
    ['Not observable', facts.notObservable.length === 0 ? 'none' : `${facts.notObservable.join(', ')} (left at rest)`],
    ['Unsure', unsureWords(facts.unsureShare)],
    ['Warnings', facts.warnings.length === 0 ? 'none' : String(facts.warnings.length)],
  ];
  const width = Math.max(...rows.map(([label]) => label.length)) + 2;
  const lines = rows.map(([label, text]) => `${`${label}:`.padEnd(width)}${text}`);
  return [...lines, ...[...facts.unsure, ...facts.warnings].map((sentence) => `- ${oneLine(sentence)}`)].join('\n') + '\n';
}

function lengthText({ stepCount, exposureCount, settings, timing: { gauge } }: SummaryFacts): string {
  const feet = gauge === null ? '' : `, ${feetWords(exposureCount, gauge)} of ${gauge} film`;
  return `${counted(stepCount, 'step')}, ${counted(exposureCount, 'exposure')}, ${(exposureCount / settings.rate).toFixed(3)} s of film${feet}`;
}

function retimedText({ timing: { marks, holdSpans } }: SummaryFacts): string {
  const said: string[] = [];
  const locked = marks.filter((mark) => mark.locked).length;
  if (marks.length > 0) said.push(`${counted(marks.length, 'mark')}, ${locked} locked`);
  if (holdSpans.length > 0) said.push(`held by hand: ${holdSpans.map(({ fromExposure, on }) => `${on} from exposure ${fromExposure}`).join(', ')}`);
  return said.length === 0 ? 'no' : said.join('; ');
}

function extremesText({ timing: { snapJoints }, bentTime: { bent, left }, settings: { rate } }: SummaryFacts): string {
  if (snapJoints.length === 0) return 'where they fall';
  const mostS = Math.max(0, ...bent.map(({ fromFilmS, toFilmS }) => Math.abs(toFilmS - fromFilmS)));
  return `of ${snapJoints.join(', ')}: ${bent.length} on steps (time bent by ${mostS.toFixed(3)} s at most, ${(mostS * rate).toFixed(2)} of an exposure), ${left.length} left between steps`;
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}

function unsureWords(share: number): string {
  if (share === 0) return 'no joint';
  const percent = share * 100;
  return `${percent < 1 ? 'under 1' : percent.toFixed(0)} % of the joints’ values (a guess there; below)`;
}

function pointText(timeS: number | null, otherwise: string): string {
  return timeS === null ? otherwise : `${timeS} s`;
}

function suggestionText({ cutoffHz, why }: CutoffSuggestion): string {
  return cutoffHz === null ? `no cut-off (${why})` : `cut-off ${cutoffHz.toFixed(1)} Hz, from residual analysis`;
}

function smoothingText({ cutoffHz, smoother }: PlanSettings, usedCutoffHz: number | null): string {
  if (usedCutoffHz !== null) return `cut-off ${usedCutoffHz} Hz, ${smoother}`;
  return cutoffHz === 0 ? 'off' : `none (cut-off ${cutoffHz} Hz asked for; see warnings)`;
}

/** Names come from outside; a line stays one line. */
function oneLine(text: string): string {
  return text.replace(/\p{Cc}+/gu, ' ').trim();
}
