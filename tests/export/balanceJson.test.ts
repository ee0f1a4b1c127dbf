import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { VERDICTS, type Balance } from '../../src/balance/balance.ts';
import { unknownBalance } from '../../src/balance/unknownBalance.ts';
import { balanceToJson, stepBalance } from '../../src/export/balanceJson.ts';

const schema = JSON.parse(readFileSync(new URL('../../docs/plan.schema.json', import.meta.url), 'utf8')) as { $defs: object; properties: { balance: object } };
const passes = (part: object, value: unknown): boolean => new Ajv2020({ strict: false }).compile({ ...part, $defs: schema.$defs })(JSON.parse(JSON.stringify(value)));

const balance: Balance = {
  ...unknownBalance(1, ['leftFoot', 'rightFoot']), massG: 320,
  massMm: Float64Array.of(1.00049, 160, -3), massSigmaMm: Float64Array.of(6.6, 3.3), movedMm: Float64Array.of(2, -4), touching: Uint8Array.of(1, 0), unseen: Uint8Array.of(0, 1),
  standMm: Float64Array.of(-5), standShare: Float64Array.of(-0.4), marginSigmaMm: Float64Array.of(2), standVerdict: Uint8Array.of(VERDICTS.indexOf('falls')),
  towardDeg: Float64Array.of(-138), tippingNmm: Float64Array.of(15.7),
  oneLeg: [{ foot: 'leftFoot', fromStep: 0, toStep: 0, worstStep: 0, worstMm: -5 }],
  flights: [{ fromStep: 3, toStep: 4, kind: 'jump', aloftS: 0.25, aloftErrorS: 0.08, ballisticS: 0.3, reads: 'in time', offMm: 2, parabolaMm: Float64Array.of(170, 171) }],
  hardware: [{ foot: null, fromStep: 0, toStep: 0, worstStep: 0, tippingNmm: 15.7, mostNmm: 22, holdN: 3.1 }],
  notes: ['A sentence.'],
};

describe('balance in plan.json', () => {
  it('counts steps from 1, rounds, says verdicts and ways in words, and has null for what is not known', () => {
    expect(balanceToJson(balance)).toMatchObject({
      oneLeg: [{ fromStep: 1, toStep: 1, worstStep: 1 }], flights: [{ fromStep: 4, toStep: 5, parabolaMm: [170, 171] }], hardware: [{ foot: null, worstStep: 1, holdN: 3.1 }],
    });
    expect(stepBalance(balance, 0)).toMatchObject({
      massMm: [1, 160, -3], touching: ['leftFoot'], unseen: ['rightFoot'], standMm: -5, stands: 'falls', toward: 'back right', moveMm: null, looksRight: 'not known',
    });
    expect(stepBalance(unknownBalance(1), 0)).toMatchObject({ massMm: null, standMm: null, toward: null, stands: 'not known' });
  });

  it('both forms pass the schema, and a spoilt one does not', () => {
    expect(passes(schema.properties.balance, balanceToJson(balance))).toBe(true);
    expect(passes({ $ref: '#/$defs/stepBalance' }, stepBalance(balance, 0))).toBe(true);
    expect(passes({ $ref: '#/$defs/stepBalance' }, stepBalance(unknownBalance(1), 0))).toBe(true);
    expect(passes({ $ref: '#/$defs/stepBalance' }, { ...stepBalance(balance, 0), stands: 'wobbles' })).toBe(false);
  });
});
