import { describe, expect, it } from 'vitest';
import { parseArguments } from '../../src/cli/arguments.ts';
import { NudgebookError } from '../../src/errors.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';

describe('parseArguments', () => {
  it('leaves the cut-off to the footage when told so', () => {
    expect(parseArguments(['take.mp4', '--out', 'plans', '--cutoff', 'suggest'])).toMatchObject({ suggestCutoff: true, settings: DEFAULT_SETTINGS });
  });

  it('fills in the defaults', () => {
    expect(parseArguments(['take.mp4', '--out', 'plans'])).toEqual({
      clip: 'take.mp4', out: 'plans', armature: undefined, corrections: undefined, timing: undefined, camera: {}, model: 'full', readouts: false, suggestCutoff: false, settings: DEFAULT_SETTINGS,
    });
  });

  it('reads every option, joined by = or apart, before or after the clip', () => {
    const command = parseArguments([
      '--out=plans', '--rate', '25', '--on=3', '--cutoff', '4.5', '--smoother', 'penalised', '--model', 'heavy', '--armature', 'marla.json',
      '--time-scale', '1.5', '--capture-factor', '8', '--from', '0.5', '--to', '4', '--mirror', '--readouts', 'take.mov',
      '--corrections', 'marla-hand.json', '--timing', 'marla-timing.json', '--pitch', '4', '--roll=-1.5', '--fov', '48',
    ]);
    expect(command).toEqual({
      clip: 'take.mov', out: 'plans', armature: 'marla.json', model: 'heavy', readouts: true, suggestCutoff: false, corrections: 'marla-hand.json', timing: 'marla-timing.json', camera: { pitchDeg: 4, rollDeg: -1.5, verticalFovDeg: 48 },
      settings: { inS: 0.5, outS: 4, captureFactor: 8, mirror: true, cutoffHz: 4.5, smoother: 'penalised', rate: 25, on: 3, timeScale: 1.5 },
    });
  });

  it('gives help wherever it is asked for', () => {
    expect(parseArguments(['--help'])).toBe('help');
    expect(parseArguments(['take.mp4', '--rate', '24', '--help'])).toBe('help');
  });

  it.each([
    [['a.mp4', 'b.mp4', '--out', 'x'], /one too many/],
    [['a.mp4', '--out'], /needs a value/],
    [['a.mp4', '--out', 'x', '--rate', '24', '--rate', '25'], /given twice/],
    [['a.mp4', '--out', 'x', '--cutoff', ''], /needs a value/],
    [['a.mp4', '--out', 'x', '--cutoff', 'NaN'], /no number/],
    [['a.mp4', '--out', 'x', '--from', '1e999'], /no number/],
    [['a.mp4', '--out', 'x', '--pitch', '120'], /--pitch is 120; it can be -89 to 89 degrees/],
    [['a.mp4', '--out', 'x', '--fov', '0'], /--fov is 0; it can be 5 to 150 degrees/],
  ] as const)('refuses %j', (words, sentence) => {
    expect(() => parseArguments(words)).toThrow(sentence);
    try {
      parseArguments(words);
    } catch (error) {
      expect(error).toBeInstanceOf(NudgebookError);
      expect((error as NudgebookError).code).toBe('bad-argument');
    }
  });
});
