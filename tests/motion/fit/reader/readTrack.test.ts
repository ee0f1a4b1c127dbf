import { describe, expect, it } from 'vitest';
import { DEPTH_VECTORS, POINT_COUNT } from '../../../../src/motion/fit/layout.ts';
import { readTogether, type Ensemble } from '../../../../src/motion/fit/reader/ensemble.ts';
import { GROUPS, inputCount } from '../../../../src/motion/fit/reader/groups.ts';
import { SIGHT_SIZE, writeSight } from '../../../../src/motion/fit/reader/sight.ts';
import { readInputs, type Network } from '../../../../src/motion/fit/reader/network.ts';
import { pack, unpack } from '../../../../src/motion/fit/reader/packed.ts';
import { readTrack } from '../../../../src/motion/fit/reader/readTrack.ts';
import { emptyTrack, type Track } from '../../../../src/pose/track.ts';
import { mirrored } from '../mirrored.ts';
import { evenNumbers } from '../syntheticTake.ts';

/** Landmarks thrown about, one frame of them missing. */
function scattered(): Track {
  const even = evenNumbers(3);
  const track = emptyTrack('full', 640, 480, Float64Array.of(0, 0.1, 0.2));
  track.found.set([1, 0, 1]);
  for (let i = 0; i < track.image.length; i++) {
    track.image[i] = even();
    track.world[i] = even() - 0.5;
  }
  for (let i = 0; i < track.visibility.length; i++) track.visibility[i] = even();
  return track;
}

function thrown(input: number, output: number, seed = 5): Network {
  const even = evenNumbers(seed);
  const some = (count: number, size: number): Float64Array => Float64Array.from({ length: count }, () => (even() - 0.5) * size);
  const [first, second] = [7, 5];
  return {
    sizes: { input, first, second, output }, inMean: some(input, 0.1), inScale: some(input, 1).map((v) => 1 + v), outMean: some(output, 0.1), outScale: some(output, 1).map((v) => 1 + v),
    direct: some(input * output, 0.02), first: some(input * first, 0.3), firstBias: some(first, 1), second: some(first * second, 1), secondBias: some(second, 1),
    third: some(second * 2 * output, 1), thirdBias: some(2 * output, 1),
  };
}

const thrownAll = (): Ensemble[] => GROUPS.map((group) => [5, 6].map((seed) => thrown(inputCount(group), group.outputs.length, seed)));

describe('the reader', () => {
  it('is told the same by the right half as by the left half of the mirrored picture', () => {
    const track = scattered();
    const [a, b] = [new Float64Array(SIGHT_SIZE), new Float64Array(SIGHT_SIZE)];
    const scale = writeSight(track, 0, true, false, a);
    expect(writeSight(mirrored(track), 0, false, false, b)).toBeCloseTo(scale, 3);
    a.forEach((value, i) => expect(value, `feature ${i}`).toBeCloseTo(b[i]!, 4));
  });

  it('reads a mirrored take as the mirror image', () => {
    const nets = thrownAll();
    const track = scattered();
    const [plain, turned] = [readTrack(track, nets, false), readTrack(mirrored(track), nets, false)];
    const other = (p: number): number => (p % 2 === 0 ? p + 1 : p - 1);
    for (const t of [0, 2]) {
      for (let p = 0; p < POINT_COUNT; p++) {
        const [i, j] = [t * POINT_COUNT + p, t * POINT_COUNT + other(p)];
        expect(turned.shiftSigmaM[j]).toBeCloseTo(plain.shiftSigmaM[i]!, 3);
      }
      // left and right bones change places; the lines from right to left turn over, the spine stays
      const partner = [2, 3, 0, 1, 6, 7, 4, 5, 8, 9, 10];
      for (let v = 0; v < DEPTH_VECTORS; v++) {
        expect(turned.lean[t * DEPTH_VECTORS + partner[v]!], `vector ${v}`).toBeCloseTo((v === 8 || v === 10 ? -1 : 1) * plain.lean[t * DEPTH_VECTORS + v]!, 3);
      }
    }
  });

  it('says nothing of a frame in which nobody was found', () => {
    const { shiftSigmaM, leanSigma, lean } = readTrack(scattered(), thrownAll(), false);
    expect([shiftSigmaM[POINT_COUNT + 3], lean[DEPTH_VECTORS + 1], leanSigma[DEPTH_VECTORS + 1]]).toEqual([Number.POSITIVE_INFINITY, 0, Number.POSITIVE_INFINITY]);
    expect([...lean].every(Number.isFinite)).toBe(true);
  });

  it('comes through packing with a ten-thousandth of its numbers', () => {
    const net = thrown(40, 8);
    const back = unpack(pack(net));
    const x = Float64Array.from({ length: 40 }, (_, i) => Math.sin(i));
    const read = (one: Network): Float64Array => {
      const [values, sigmas] = [new Float64Array(8), new Float64Array(8)];
      readInputs(one, x, values, sigmas);
      return Float64Array.of(...values, ...sigmas);
    };
    const [a, b] = [read(net), read(back)];
    a.forEach((value, i) => expect(b[i]).toBeCloseTo(value, 2));
    expect(() => unpack({ ...pack(net), numbers: 'AAAA' })).toThrow('letters');
  });

  it('of several networks says the mean, and doubts what they do not agree on', () => {
    const nets = [3, 4, 5].map((seed) => thrown(6, 2, seed));
    const x = Float64Array.from({ length: 6 }, (_, i) => Math.sin(i));
    const each = nets.map((net) => {
      const [values, sigmas] = [new Float64Array(2), new Float64Array(2)];
      readInputs(net, x, values, sigmas);
      return { values, sigmas };
    });
    const [values, sigmas] = [new Float64Array(2), new Float64Array(2)];
    readTogether(nets, x, values, sigmas);
    for (const k of [0, 1]) {
      const mean = each.reduce((sum, one) => sum + one.values[k]!, 0) / 3;
      expect(values[k]).toBeCloseTo(mean, 12);
      // the variance of a mixture
      expect(sigmas[k]! ** 2).toBeCloseTo(each.reduce((sum, one) => sum + one.sigmas[k]! ** 2 + one.values[k]! ** 2, 0) / 3 - mean * mean, 10);
    }
    readTogether([nets[1]!], x, values, sigmas);
    expect([values, sigmas]).toEqual([each[1]!.values, each[1]!.sigmas]);
  });
});
