import { describe, expect, it } from 'vitest';
import { findContacts, overrideContacts } from '../../../src/motion/fit/contacts.ts';

const RATE = 30;
/** Ankles [T·2·3] from heights and ways of both feet. */
function ankles(count: number, foot: (t: number, side: number) => readonly [number, number]): { at: Float64Array; known: Uint8Array; timesS: Float64Array } {
  const at = new Float64Array(count * 6);
  for (let t = 0; t < count; t++) for (let side = 0; side < 2; side++) at.set([...foot(t / RATE, side), 4], (t * 2 + side) * 3);
  return { at, known: new Uint8Array(count).fill(1), timesS: Float64Array.from({ length: count }, (_, t) => t / RATE) };
}
const runs = (planted: Float64Array, side: number): string => Array.from({ length: planted.length / 2 }, (_, t) => planted[t * 2 + side]).join('').replace(/(.)\1*/g, (m) => `${m[0]}×${m.length} `).trim();

describe('findContacts', () => {
  it('finds the stance of a walk: half a second still, half a second in swing, feet in turn', () => {
    const { at, known, timesS } = ankles(120, (t, side) => {
      const phase = t + side * 0.5;
      const step = Math.floor(phase);
      const swing = Math.max(0, (phase - step - 0.5) * 2);
      return [step + swing * swing * (3 - 2 * swing), 0.08 + 0.12 * Math.sin(Math.PI * swing)];
    });
    const planted = findContacts(at, known, timesS);
    for (let t = 15; t < 105; t++) {
      for (let side = 0; side < 2; side++) {
        const within = (t / RATE + side * 0.5) % 1;
        // Two frames either side of the change are anybody's.
        if (within > 0.07 && within < 0.43) expect(planted[t * 2 + side], `frame ${t}`).toBe(1);
        if (within > 0.57 && within < 0.93) expect(planted[t * 2 + side], `frame ${t}`).toBe(0);
      }
    }
  });

  it('does not take a raised still foot, or the top of a jump, for standing', () => {
    const raised = ankles(60, (_, side) => [side * 0.2, side === 0 ? 0.08 : 0.4]);
    expect(runs(findContacts(raised.at, raised.known, raised.timesS), 0)).toBe('1×60');
    expect(runs(findContacts(raised.at, raised.known, raised.timesS), 1)).toBe('0×60');
    const jump = ankles(60, (t, side) => {
      const u = (t - 1) / 0.3;
      return [side * 0.2, 0.08 + (Math.abs(u) < 1 ? 0.45 * (1 - u * u) : 0)];
    });
    const planted = findContacts(jump.at, jump.known, jump.timesS);
    for (let t = 23; t < 38; t++) expect(planted[t * 2], `frame ${t}`).toBe(0);
    expect(planted[0]).toBe(1);
  });

  it('lets a performer stand still at a level that drifts by 8 cm with the pose', () => {
    const { at, known, timesS } = ankles(120, (t, side) => [side * 0.2, 0.08 + 0.04 * Math.cos((2 * Math.PI * t) / 4)]);
    const planted = findContacts(at, known, timesS);
    expect(runs(planted, 0)).toBe('1×120');
    expect(runs(planted, 1)).toBe('1×120');
  });

  it('leaves frames with nobody free, and lets a person say otherwise', () => {
    const { at, known, timesS } = ankles(30, (_, side) => [side * 0.2, 0.08]);
    known.fill(0, 10, 20);
    const planted = findContacts(at, known, timesS);
    expect(runs(planted, 0)).toBe('1×10 0×10 1×10');
    overrideContacts(planted, { right: Array.from({ length: 30 }, (_, t) => (t < 5 ? 0 : t < 15 ? 1 : 255)) });
    expect(runs(planted, 0)).toBe('1×10 0×10 1×10');
    expect(runs(planted, 1)).toBe('0×5 1×10 0×5 1×10');
  });
});
