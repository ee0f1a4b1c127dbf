import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { planToJson, type PlanJson } from '../../src/export/planJson.ts';
import { readoutsCsv } from '../../src/export/readoutsCsv.ts';
import { READOUTS } from '../../src/motion/readouts/catalogue.ts';
import { createPlanner } from '../../src/plan/makePlan.ts';
import { STANDARD_ARMATURE } from '../../src/puppet/standard.ts';
import { sampleMotion } from '../../src/timing/sampleMotion.ts';
import { evenTimes, loseFrame, trackOf, turnX, type FigurePose } from '../motion/figure.ts';
import { exampleSettings, exampleTake } from './examplePlan.ts';

const times = evenTimes(60, 30);
// the right arm hangs at first and swings up sideways at 1 rad/s
const track = trackOf([...times].map((t): FigurePose => ({ rightShoulder: turnX(-t), rightElbow: 1, leftElbow: 1, leftKnee: 1, rightKnee: 1 })), times);
for (let t = 30; t < 45; t++) loseFrame(track, t);
const planner = createPlanner();
const plan = planner.plan(track, STANDARD_ARMATURE, exampleSettings);
const poses = sampleMotion(planner.motion(track, exampleSettings), plan.sourceTimeS);
const file = JSON.parse(JSON.stringify(planToJson(plan, exampleTake, exampleSettings, null, undefined, poses))) as PlanJson;
const rows = parse(readoutsCsv(plan, poses), { columns: true, record_delimiter: '\r\n' }) as Record<string, string>[];

describe('readouts in plan.json', () => {
  it('fit the schema, one value a step, none left out', () => {
    const schema = JSON.parse(readFileSync(new URL('../../docs/plan.schema.json', import.meta.url), 'utf8')) as object;
    const validate = new Ajv2020({ allErrors: true, strict: true, strictTypes: false }).compile(schema);
    validate(file);
    expect(validate.errors).toBeNull();
    expect(Object.keys(file.readouts!)).toEqual(READOUTS.map(({ id }) => id));
    for (const { deg } of Object.values(file.readouts!)) expect(deg).toHaveLength(plan.stepCount);
  });

  it('say at every step what the table says: same value, same doubt, same gaps', () => {
    for (const [id, { deg, zoneSteps }] of Object.entries(file.readouts!)) {
      const column = Object.keys(rows[0]!).find((name) => name.startsWith(`${id}: `))!;
      rows.forEach((row, s) => {
        const cell = row[column]!;
        expect(deg[s] === null).toBe(cell === '');
        if (cell !== '') expect(deg[s]).toBeCloseTo(Number(cell.replace('~', '')), 3);
        expect(zoneSteps.includes(s + 1), `${id} at step ${s + 1}`).toBe(cell.endsWith('~'));
      });
    }
  });

  it('tell the swing of the arm by its sum, and that its plane can’t be told while it hangs', () => {
    const { deg } = file.readouts!['rightShoulder.elevation']!;
    // a steady 1 rad/s: what lies between two steps is the time between them, whatever the smoothing does at the ends
    const wantDeg = ((plan.sourceTimeS[8]! - plan.sourceTimeS[4]!) * 180) / Math.PI;
    expect(Math.abs(deg[8]! - deg[4]!)).toBeGreaterThan(wantDeg - 2);
    expect(Math.abs(deg[8]! - deg[4]!)).toBeLessThan(wantDeg + 2);
    const plane = file.readouts!['rightShoulder.plane']!;
    expect(plane.zone).not.toBeNull();
    expect(plane.zoneSteps[0]).toBe(1);
    expect(plane.zoneSteps).not.toContain(13);
  });
});
