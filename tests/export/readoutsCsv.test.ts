import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { readoutsCsv } from '../../src/export/readoutsCsv.ts';
import { PLACES } from '../../src/export/rounding.ts';
import { JOINT, JOINT_COUNT } from '../../src/motion/joints.ts';
import { READOUTS, readoutSeries } from '../../src/motion/readouts/catalogue.ts';
import { createPlanner } from '../../src/plan/makePlan.ts';
import { STANDARD_ARMATURE } from '../../src/puppet/standard.ts';
import { sampleMotion } from '../../src/timing/sampleMotion.ts';
import { evenTimes, loseFrame, trackOf, turnX, type FigurePose } from '../motion/figure.ts';
import { exampleSettings } from './examplePlan.ts';

const times = evenTimes(60, 30);
const track = trackOf([...times].map((t): FigurePose => ({ rightShoulder: turnX(-t), rightElbow: 1, leftElbow: 1, leftKnee: 1, rightKnee: 1 })), times);
for (let t = 30; t < 45; t++) loseFrame(track, t);
const planner = createPlanner();
const plan = planner.plan(track, STANDARD_ARMATURE, exampleSettings);
const poses = sampleMotion(planner.motion(track, exampleSettings), plan.sourceTimeS);
const text = readoutsCsv(plan, poses);
const rows = parse(text, { columns: true, record_delimiter: '\r\n' }) as Record<string, string>[];

describe('readouts.csv', () => {
  it('has one row a step, a column for every readout with its unit, error and doubts once a joint, no name twice', () => {
    expect(rows).toHaveLength(plan.stepCount);
    const head = text.slice(0, text.indexOf('\r\n')).split(',');
    expect(new Set(head).size).toBe(head.length);
    for (const { id } of READOUTS) expect(head.filter((name) => name.startsWith(`${id}: `) && name.endsWith(' (deg)'))).toHaveLength(1);
    for (const name of ['leftElbow error (deg)', 'leftElbow unsure', 'leftClavicle.elevation: elevation (inferred) (deg)']) expect(head).toContain(name);
  });

  it('says what the readouts say, marks singular zones, leaves the unknown empty', () => {
    const elevation = READOUTS.find(({ id }) => id === 'rightShoulder.elevation')!;
    const { deg } = readoutSeries(poses, elevation);
    rows.forEach((row, s) => {
      const cell = row['rightShoulder.elevation: elevation (deg)']!;
      if (Number.isNaN(deg[s]!)) expect(cell).toBe('');
      else expect(Number(cell)).toBeCloseTo(deg[s]!, 3);
    });
    // the arm hangs at first: its plane of elevation is not defined
    expect(rows[0]!['rightShoulder.plane: plane of elevation (deg)']).toMatch(/~$/);
    expect(rows[12]!['rightShoulder.plane: plane of elevation (deg)']).not.toMatch(/~$/);
    expect(rows.some((row) => row['rightElbow.flexion: flexion (deg)'] === '')).toBe(true);
    expect(text).not.toContain('NaN');
  });

  it('gives chest and head the error of the whole turn that is read, not the half that each of two joints has of it', () => {
    rows.forEach((row, s) => {
      for (const [joint, times] of [['chest', 2], ['head', 2], ['pelvis', 1], ['leftElbow', 1]] as const) {
        const error = poses.errorDeg[s * JOINT_COUNT + JOINT[joint]]!;
        expect(row[`${joint} error (deg)`]).toBe(Number.isNaN(error) ? '' : String(Number((times * error).toFixed(PLACES.error))));
      }
    });
  });

  it('gives a limb’s turn about its own bone an error of its own, joints without one no such column', () => {
    const turns = Object.keys(rows[0]!).filter((name) => name.endsWith(' turn error (deg)')).map((name) => name.split(' ')[0]);
    expect(turns).toEqual(READOUTS.map(({ joint }) => joint).filter((joint, k, all) => all[k + 1] !== joint && /Shoulder|Wrist|Hip|Ankle/.test(joint)));
    rows.forEach((row, s) => {
      const error = poses.turnErrorDeg[s * JOINT_COUNT + JOINT.rightShoulder]!;
      expect(row['rightShoulder turn error (deg)']).toBe(Number.isNaN(error) ? '' : String(Number(error.toFixed(PLACES.error))));
    });
  });
});
