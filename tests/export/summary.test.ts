import { describe, expect, it } from 'vitest';
import { summaryText, type SummaryFacts } from '../../src/export/summary.ts';
import { exampleSettings, exampleTake } from './examplePlan.ts';

const facts: SummaryFacts = {
  take: exampleTake, formatText: 'video/webm, vp09', sizeBytes: 12345, poseS: 4, workers: 2, settings: exampleSettings, fitted: true, usedCutoffHz: 3.5,
  suggestedCutoff: { cutoffHz: 4.2, groups: { arms: 4.2, legs: 3, trunk: null, head: null }, why: '' },
  armature: 'Marla', jointCount: 17, notObservable: ['leftClavicle'], stepCount: 27, filmS: 2.25, unsureShare: 0.124,
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
