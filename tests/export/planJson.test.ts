import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { planToJson, type PlanJson } from '../../src/export/planJson.ts';
import { angleBetween, readQuat, type Quat } from '../../src/numeric/quaternion.ts';
import { examplePlan, exampleSettings, exampleTake } from './examplePlan.ts';

const schema = JSON.parse(readFileSync(new URL('../../docs/plan.schema.json', import.meta.url), 'utf8')) as object;
const validate = new Ajv2020({ allErrors: true, strict: true, strictTypes: false }).compile(schema);

/** As it comes out of a file. */
function fromFile(): PlanJson {
  return JSON.parse(JSON.stringify(planToJson(examplePlan, exampleTake, exampleSettings))) as PlanJson;
}

describe('plan.json', () => {
  it('fits its schema', () => {
    validate(fromFile());
    expect(validate.errors).toBeNull();
  });

  it('and the schema is not empty: spoilt files fail it', () => {
    const spoil: readonly ((plan: Record<string, any>) => void)[] = [
      (p) => { delete p.rate; },
      (p) => { p.version = 2; },
      (p) => { p.extra = 1; },
      (p) => { p.steps[0].step = 0; },
      (p) => { p.steps[0].joints.head.rotation = [1, 0, 0]; },
      (p) => { p.steps[0].joints.head.rotation = [1, 0, 0, 0, 0]; },
      (p) => { p.steps[0].joints.head.state = 'seen'; },
      (p) => { p.steps[0].joints.tail = p.steps[0].joints.head; },
      (p) => { p.steps[0].joints.head.confidence = 1.5; },
      (p) => { p.steps[0].joints.head.angleDeg = 'NaN'; },
      (p) => { p.take.model = 'huge'; },
      (p) => { p.steps = []; },
    ];
    for (const change of spoil) {
      const file = fromFile() as unknown as Record<string, any>;
      change(file);
      expect(validate(file), change.toString()).toBe(false);
    }
  });

  it('says what the plan says, rounded', () => {
    const file = fromFile();
    expect([file.format, file.version, file.rate, file.on]).toEqual(['nudgebook-plan', 1, 24, 2]);
    expect(file.take).toEqual({ ...exampleTake, durationS: 2 });
    expect(file.settings).toEqual({ ...exampleSettings, usedCutoffHz: 6 });
    expect(file.steps).toHaveLength(examplePlan.stepCount);
    examplePlan.joints.forEach(({ name, kind }, p) => {
      file.steps.forEach((step, s) => {
        const k = s * examplePlan.joints.length + p;
        const joint = step.joints[name]!;
        expect(joint.kind).toBe(kind);
        if (joint.state === 'missing') {
          expect([joint.angleDeg, joint.incrementDeg, joint.turnDeg, joint.rotation]).toEqual([null, null, null, null]);
          return;
        }
        expect(Math.abs(joint.angleDeg! - examplePlan.angleDeg[k]!)).toBeLessThanOrEqual(0.0005 + 1e-9);
        // six places of each part: up to 2e-6 rad
        expect(angleBetween(joint.rotation as unknown as Quat, readQuat(examplePlan.rotations, k))).toBeLessThan(3e-6);
      });
    });
    expect([file.steps[1]!.step, file.steps[1]!.exposure, file.steps[1]!.filmTimeS]).toEqual([2, 3, 0.083333]);
    expect(file.steps[1]!.sourceTimeS).toBe(0.075758); // 1/12 s of film is 1/13.2 s of the performer
  });

  it('has all three states, and null increments only around what is missing', () => {
    const steps = fromFile().steps;
    expect(new Set(steps.map((step) => step.joints.head!.state))).toEqual(new Set(['measured', 'bridged', 'missing']));
    steps.forEach((step, s) => {
      const around = [step, steps[s - 1]].some((one) => one?.joints.head!.state === 'missing');
      expect(step.joints.head!.incrementDeg === null).toBe(around);
    });
  });

  it('never says minus zero', () => {
    expect(JSON.stringify(planToJson(examplePlan, exampleTake, exampleSettings))).not.toMatch(/-0[,\]}]/);
  });
});
