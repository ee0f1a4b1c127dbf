import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { bodyFacts, planToJson, type PlanJson } from '../../src/export/planJson.ts';
import { NO_CORRECTIONS } from '../../src/motion/corrections/corrections.ts';
import { angleBetween, fromRotationVector, multiply, readQuat, type Quat } from '../../src/numeric/quaternion.ts';
import type { Vec3 } from '../../src/numeric/vector3.ts';
import { examplePlan, exampleSettings, exampleTake, exampleTiming, retimedPlan } from './examplePlan.ts';

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
    // each puts a value at a path of the file; `undefined` takes the field away
    const spoil: readonly (readonly [readonly (string | number)[], unknown])[] = [
      [['rate'], undefined], [['version'], 2], [['steps', 0, 'holds'], 0], [['timing', 'gauge'], '8 mm'], [['moves', 0, 'of'], 'tail'], [['exposureCount'], undefined], [['extra'], 1], [['take', 'model'], 'huge'], [['steps'], []],
      [['steps', 0, 'step'], 0], [['steps', 0, 'joints', 'tail'], {}],
      [['steps', 0, 'joints', 'head', 'rotation'], [1, 0, 0]], [['steps', 0, 'joints', 'head', 'rotation'], [1, 0, 0, 0, 0]],
      [['steps', 0, 'joints', 'head', 'state'], 'seen'], [['steps', 0, 'joints', 'head', 'confidence'], 1.5],
      [['steps', 0, 'joints', 'head', 'errorDeg'], -1], [['steps', 0, 'joints', 'head', 'turnErrorDeg'], undefined], [['steps', 0, 'joints', 'head', 'unsureBecause'], ['mist']], [['unsureSpans'], undefined],
      [['readouts'], undefined], [['readouts'], {}], [['readouts'], { 'neck.nod': {} }], [['balance', 'massG'], -1], [['balance', 'notes'], [7]], [['steps', 0, 'balance', 'stands'], 'wobbles'], [['steps', 0, 'balance', 'toward'], 'up'],
      [['steps', 0, 'joints', 'head', 'angleDeg'], 'NaN'], [['steps', 0, 'joints', 'head', 'incrementDeg'], undefined],
    ];
    for (const [path, value] of spoil) {
      const file: unknown = fromFile();
      let at = file as Record<string | number, unknown>;
      for (const key of path.slice(0, -1)) at = at[key] as Record<string | number, unknown>;
      at[path[path.length - 1]!] = value;
      expect(validate(JSON.parse(JSON.stringify(file))), path.join('.')).toBe(false);
    }
  });

  it('names what was set by hand and what was found', () => {
    const body = bodyFacts({
      camera: { pitchRad: 0.1, rollRad: -0.02, pitchSigmaRad: 0.03, rollSigmaRad: 0.01, focalPx: 700.123, given: { pitch: true, roll: false, fov: false } },
      corrections: { ...NO_CORRECTIONS, angles: [{ timeS: 1, joint: 'leftElbow', angleDeg: 30 }] },
      swaps: [{ fromS: 1, toS: 1.2, part: 'legs', state: 'repaired' }],
      slate: { straightFromS: 0.2, straightToS: 1, squareFromS: null, squareToS: null, given: false },
    });
    const file = JSON.parse(JSON.stringify(planToJson(examplePlan, exampleTake, exampleSettings, body))) as PlanJson;
    validate(file);
    expect(validate.errors).toBeNull();
    expect(file.body?.camera).toMatchObject({ pitchDeg: expect.closeTo(5.73, 2) as number, given: { pitch: true } });
    expect(file.body?.corrections).toMatchObject({ angles: 1, placed: 0 });
    expect(file.body?.swaps).toHaveLength(1);
    expect(file.body?.slate?.squareFromS).toBeNull();
    expect(fromFile().body).toBeNull();
  });

  it('says what the plan says, rounded', () => {
    const file = fromFile();
    expect([file.format, file.version, file.rate, file.on]).toEqual(['nudgebook-plan', 3, 24, 2]);
    expect(file.take).toEqual({ ...exampleTake, durationS: 2 });
    expect(file.settings).toEqual({ ...exampleSettings, usedCutoffHz: exampleSettings.cutoffHz });
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

  it('has all three states, and null increments only where a pose is missing', () => {
    const steps = fromFile().steps;
    expect(new Set(steps.map((step) => step.joints.head!.state))).toEqual(new Set(['measured', 'bridged', 'missing']));
    steps.forEach((step) => {
      expect(step.joints.head!.incrementDeg === null).toBe(step.joints.head!.state === 'missing');
    });
  });

  it('never says minus zero', () => {
    expect(JSON.stringify(planToJson(examplePlan, exampleTake, exampleSettings))).not.toMatch(/-0[,\]}]/);
  });
});

describe('a retimed plan', () => {
  const file = JSON.parse(JSON.stringify(planToJson(retimedPlan, exampleTake, exampleSettings, null, exampleTiming))) as PlanJson;

  it('fits the schema, and its steps lie end to end', () => {
    validate(file);
    expect(validate.errors).toBeNull();
    file.steps.forEach(({ exposure, holds }, s) => expect(exposure + holds).toBe(file.steps[s + 1]?.exposure ?? file.exposureCount + 1));
    expect(new Set(file.steps.map(({ holds }) => holds))).toEqual(new Set([1, 2, 3]));
  });

  it('tells marks, holds and bent time', () => {
    expect(file.timing.marks.map(({ exposure, locked }) => [exposure, locked])).toEqual([[7, true], [13, false]]);
    expect([file.timing.holdSpans, file.timing.snapJoints, file.timing.gauge]).toEqual([exampleTiming.holdSpans, ['rightElbow'], '35 mm']);
    expect(file.timing.bentTime.length).toBeGreaterThan(0);
    for (const { sourceTimeS, toFilmTimeS, fromFilmTimeS, bentS, bentExposures } of file.timing.bentTime) {
      const step = file.steps.find(({ filmTimeS }) => filmTimeS === toFilmTimeS)!;
      expect(step.sourceTimeS).toBeCloseTo(sourceTimeS, 5);
      expect(bentS).toBeCloseTo(toFilmTimeS - fromFilmTimeS, 5);
      // half of the longest hold
      expect(Math.abs(bentExposures)).toBeLessThanOrEqual(1.5);
    }
  });

  it('holds the moment between the two marks, which is a pause', () => {
    const held = file.steps.filter(({ exposure }) => exposure >= 7 && exposure <= 13);
    expect(new Set(held.map(({ sourceTimeS }) => sourceTimeS))).toEqual(new Set([0.25]));
    const [first, last] = [held[0]!.step, held.at(-1)!.step];
    expect(file.pauses.some(({ of, fromStep, toStep }) => of === 'body' && fromStep <= first && toStep >= last)).toBe(true);
  });
});

describe('a plan read back from its file', () => {
  it('can be played back from the moves alone: every ordered rotation comes out', () => {
    const file = fromFile();
    const known = file.steps.filter((step) => step.joints.head!.state !== 'missing');
    for (const { name, kind } of file.joints) {
      let q = known[0]!.joints[name]!.orderedRotation as unknown as Quat;
      for (const step of known.slice(1)) {
        const { turnDeg, orderedRotation, incrementDeg } = step.joints[name]!;
        const turn = turnDeg!.map((deg) => (deg * Math.PI) / 180) as unknown as Vec3;
        q = multiply(fromRotationVector(turn), q);
        // six places of a degree add up to far less than a thousandth over these steps
        expect(angleBetween(q, orderedRotation as unknown as Quat)).toBeLessThan(2e-5);
        if (kind === 'ball') expect(Math.abs(incrementDeg! - Math.round(incrementDeg!))).toBeLessThan(1e-5);
      }
    }
    expect(file.datums.length).toBeGreaterThan(0);
    for (const { step, point, heightMm } of file.datums) expect(file.steps[step - 1]!.points[point]!.atMm![1]).toBe(heightMm);
  });
});
