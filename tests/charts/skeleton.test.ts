import { describe, expect, it } from 'vitest';
import { drawSkeleton, fitRect, type Pen, sideOfBone } from '../../src/charts/skeleton.ts';
import { LANDMARK, LANDMARK_COUNT } from '../../src/pose/landmarks.ts';
import { emptyTrack } from '../../src/pose/track.ts';

/** A pen that writes down what it is asked to draw. */
function notingPen(): { pen: Pen; lines: { dash: number[]; from: [number, number]; width: number }[]; letters: { text: string; x: number }[]; fills: string[] } {
  const lines: { dash: number[]; from: [number, number]; width: number }[] = [];
  const letters: { text: string; x: number }[] = [];
  const fills: string[] = [];
  let dash: number[] = [];
  let from: [number, number] = [0, 0];
  const pen = {
    lineWidth: 1, strokeStyle: '', fillStyle: '', font: '', textAlign: 'left', textBaseline: 'top', lineCap: 'butt', lineJoin: 'miter',
    beginPath: () => undefined,
    moveTo: (x: number, y: number) => { from = [x, y]; },
    lineTo: () => { lines.push({ dash, from, width: pen.lineWidth }); },
    arc: () => undefined,
    stroke: () => undefined,
    fill: () => { fills.push(String(pen.fillStyle)); },
    setLineDash: (d: number[]) => { dash = d; },
    fillText: (text: string, x: number) => { letters.push({ text, x }); },
    strokeText: () => undefined,
  } as unknown as Pen;
  return { pen, lines, letters, fills };
}

const LOOK = { ink: 'ink', edge: 'edge', fontFamily: 'x', bonePx: 4 };
const PLACE = { x: 0, y: 0, width: 64, height: 200, mirror: false };

/** One frame in which landmark i lies at pixel i of 64 (exact in float32): left and right differ by one. */
function track(): ReturnType<typeof emptyTrack> {
  const t = emptyTrack('full', 100, 200, Float64Array.of(0, 1));
  for (let i = 0; i < LANDMARK_COUNT; i += 1) {
    t.image[i * 3] = i / 64;
    t.image[i * 3 + 1] = 0.5;
  }
  t.found[0] = 1;
  return t;
}
const seen = (): boolean => false;

describe('the skeleton', () => {
  it('draws nothing where nobody was found, and says so', () => {
    const { pen, lines } = notingPen();
    expect(drawSkeleton(pen, track(), 1, PLACE, LOOK, seen)).toBe(false);
    expect(lines).toEqual([]);
  });

  it('tells left from right by line, not by colour', () => {
    const { pen, lines } = notingPen();
    drawSkeleton(pen, track(), 0, PLACE, LOOK, seen);
    expect(lines.find((l) => l.from[0] === LANDMARK.leftElbow)?.dash).toEqual([]);
    expect(lines.find((l) => l.from[0] === LANDMARK.rightElbow)?.dash).not.toEqual([]);
  });

  it('letters wrists and ankles', () => {
    const { pen, letters } = notingPen();
    drawSkeleton(pen, track(), 0, PLACE, LOOK, seen);
    expect(letters.map((l) => l.text)).toEqual(['L', 'R', 'L', 'R']);
  });

  it('in a mirror changes the side of picture and letters alike', () => {
    const { pen, lines, letters } = notingPen();
    drawSkeleton(pen, track(), 0, { ...PLACE, mirror: true }, LOOK, seen);
    expect(letters.map((l) => l.text)).toEqual(['R', 'L', 'R', 'L']);
    expect(lines.find((l) => l.from[0] === 64 - LANDMARK.leftElbow)?.dash).not.toEqual([]);
  });

  it('draws what is out of sight hollow and thinner', () => {
    const plain = notingPen();
    drawSkeleton(plain.pen, track(), 0, PLACE, LOOK, seen);
    const hidden = notingPen();
    drawSkeleton(hidden.pen, track(), 0, PLACE, LOOK, (_, landmark) => landmark === LANDMARK.leftElbow);
    const width = (n: typeof plain): number => n.lines.filter((l) => l.from[0] === LANDMARK.leftElbow).at(-1)?.width ?? 0;
    expect(width(hidden)).toBeLessThan(width(plain));
    expect(plain.fills.filter((f) => f === 'edge')).toHaveLength(0);
    expect(hidden.fills.filter((f) => f === 'edge')).toHaveLength(1);
  });

  it('knows which side a bone is on', () => {
    expect(sideOfBone('leftHip', 'leftKnee')).toBe('left');
    expect(sideOfBone('rightHip', 'rightKnee')).toBe('right');
    expect(sideOfBone('leftHip', 'rightHip')).toBe('middle');
    expect(sideOfBone('leftEyeInner', 'nose')).toBe('left');
  });

  it('fits a frame whole and centred', () => {
    expect(fitRect(100, 200, 300, 100)).toEqual({ x: 125, y: 0, width: 50, height: 100 });
  });
});
