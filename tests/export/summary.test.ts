import { describe, expect, it } from 'vitest';
import { summaryText, type SummaryFacts } from '../../src/export/summary.ts';
import { DEFAULT_TIMING } from '../../src/timing/timingSettings.ts';
import { exampleSettings, exampleTake, exampleTiming, retimedPlan } from './examplePlan.ts';

const facts: SummaryFacts = {
  take: exampleTake, formatText: 'video/webm, vp09', sizeBytes: 12345, poseS: 4, workers: 2, settings: exampleSettings, fitted: true, usedCutoffHz: 3.5,
  suggestedCutoff: { cutoffHz: 4.2, groups: { arms: 4.2, legs: 3, trunk: null, head: null }, why: '' },
  armature: 'Marla', jointCount: 17, notObservable: ['leftClavicle'], stepCount: 27, exposureCount: 54, timing: DEFAULT_TIMING, bentTime: { bent: [], left: [] }, unsureShare: 0.124,
  unsure: ['leftElbow, steps 3 to 9: it points at the lens.'], warnings: ['One.', 'Two\nlines.'],
};

describe('summary.txt', () => {
  const lines = summaryText(facts).split('\n');
  const line = (label: string): string => lines.find((l) => l.startsWith(`${label}:`))!.slice(label.length + 1).trim();

  it('has the facts of the clip, the run, the settings and the film', () => {
    expect(line('Clip')).toBe('=Marla, "jar".webm');
    expect(line('Length')).toBe('2.000 s, 60 frames');
    expect(line('Picture')).toBe('800 × 1000 px, 30 constant frames a second');
    expect(line('Frames posed')).toBe('44 of 60 (16 missed)');
    expect(line('Pose model')).toBe('full, 2 workers, 4.0 s, 15.0 frames a second');
    expect(line('Part used')).toBe('start to end');
    expect(line('Smoothing')).toBe('cut-off 3.5 Hz, penalised');
    expect(line('Suggested')).toBe('cut-off 4.2 Hz, from residual analysis');
    expect(line('Film')).toBe('24 exposures a second, 2 for each pose, time scale 1.1');
    expect(line('Not observable')).toBe('leftClavicle (left at rest)');
  });

  it('tells the length and what was retimed', () => {
    expect([line('Steps'), line('Retimed'), line('Extremes')]).toEqual(['27 steps, 54 exposures, 2.250 s of film', 'no', 'where they fall']);
    const { stepCount, exposureCount, bentTime } = retimedPlan;
    const text = summaryText({ ...facts, stepCount, exposureCount, bentTime, timing: exampleTiming });
    // 16 frames a foot, as in tests/timing/data/counts.json
    expect(text).toContain(`${stepCount} steps, ${exposureCount} exposures, ${(exposureCount / 24).toFixed(3)} s of film, ${Math.floor(exposureCount / 16)}+${String(exposureCount % 16).padStart(2, '0')} of 35 mm film`);
    expect(text).toContain('2 marks, 1 locked; held by hand: 1 from exposure 20, 3 from exposure 31');
    expect(text).toMatch(/of rightElbow: [1-9]\d* on steps \(time bent by 0\.0\d\d s at most, 0\.\d\d of an exposure\), \d+ left between steps/);
  });

  it('lists the warnings, each on a line of its own', () => {
    expect(lines.slice(-5)).toEqual(['Warnings:       2', '- leftElbow, steps 3 to 9: it points at the lens.', '- One.', '- Two lines.', '']);
    expect(summaryText({ ...facts, unsure: [], warnings: [] })).toMatch(/Warnings: +none\n$/);
  });

  it('tells smoothing that was switched off from smoothing that could not be', () => {
    expect(summaryText({ ...facts, usedCutoffHz: null })).toContain('none (cut-off 3.5 Hz asked for; see warnings)');
    expect(summaryText({ ...facts, usedCutoffHz: null, settings: { ...exampleSettings, cutoffHz: 0 } })).toMatch(/Smoothing: +off/);
  });

  it('says how much is unsure', () => {
    expect(line('Unsure')).toBe('12 % of the joints’ values (a guess there; below)');
    expect(summaryText({ ...facts, unsureShare: 0, unsure: [] })).toMatch(/Unsure: +no joint/);
    expect(summaryText({ ...facts, unsureShare: 0.004 })).toMatch(/Unsure: +under 1 %/);
  });

  it('says so when the speed was not measured', () => {
    expect(summaryText({ ...facts, poseS: 0 })).toContain('not measured');
  });
});
