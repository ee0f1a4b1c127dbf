/**
 * The packer against the real models that the installed package ships, and against spoiled ones.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { buildNormalisationMetadata, readNormalisationMetadata } from '../../scripts/assets/normalisationMetadata.ts';
import { packTask } from '../../scripts/assets/taskBundle.ts';
import { addModelMetadata, METADATA_ENTRY, readModel, readModelMetadata } from '../../scripts/assets/tfliteMetadata.ts';

const poseDir = path.dirname(createRequire(import.meta.url).resolve('@mediapipe/pose/package.json'));
const detector = new Uint8Array(readFileSync(path.join(poseDir, 'pose_solution_packed_assets.data')));
const landmarks = (size: string): Uint8Array => new Uint8Array(readFileSync(path.join(poseDir, `pose_landmark_${size}.tflite`)));
const sha = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

interface Member {
  readonly name: string;
  readonly method: number;
  readonly bytes: Uint8Array;
}

/** Reads a zip's local entries (APPNOTE 4.3.7) without the package that wrote it. */
function members(zip: Uint8Array): Member[] {
  const view = new DataView(zip.buffer, zip.byteOffset, zip.length);
  const found: Member[] = [];
  let at = 0;
  while (view.getUint32(at, true) === 0x04034b50) {
    const method = view.getUint16(at + 8, true);
    const size = view.getUint32(at + 18, true);
    const nameLength = view.getUint16(at + 26, true);
    const extraLength = view.getUint16(at + 28, true);
    const start = at + 30 + nameLength + extraLength;
    expect(view.getUint32(at + 22, true)).toBe(size);
    found.push({ name: new TextDecoder().decode(zip.subarray(at + 30, at + 30 + nameLength)), method, bytes: zip.subarray(start, start + size) });
    at = start + size;
  }
  return found;
}

describe('normalisation metadata', () => {
  it('reads back as written', () => {
    expect(readNormalisationMetadata(buildNormalisationMetadata({ mean: 127.5, std: 63.25 }))).toEqual({ mean: 127.5, std: 63.25 });
  });

  it('has its identifier where a flatbuffer has it', () => {
    expect(new TextDecoder().decode(buildNormalisationMetadata({ mean: 0, std: 1 }).subarray(4, 8))).toBe('M001');
    expect(() => readNormalisationMetadata(new Uint8Array(32))).toThrow('M001');
  });
});

describe('a model with metadata', () => {
  const old = landmarks('lite');
  const metadata = buildNormalisationMetadata({ mean: 0, std: 255 });
  const made = addModelMetadata(old, metadata);
  const front = made.length - old.length;

  it('ends with the old bytes unchanged, at a 16-byte limit', () => {
    expect(front % 16).toBe(0);
    expect(sha(made.subarray(front))).toBe(sha(old));
  });

  it('keeps every old part where it was and adds one buffer and one entry', () => {
    const before = readModel(old);
    const after = readModel(made);
    expect(after.version).toBe(before.version);
    expect(after.buffers.slice(0, -1)).toEqual(before.buffers.map((b) => b + front));
    expect(after.buffers).toHaveLength(before.buffers.length + 1);
    expect(after.metadataNames).toEqual([...before.metadataNames, METADATA_ENTRY]);
    const [BUFFERS, METADATA] = [4, 6];
    for (const [field, target] of before.offsets) {
      if (field !== BUFFERS && field !== METADATA) expect(after.offsets.get(field)).toBe(target + front);
    }
  });

  it('gives the metadata back, aligned as the format asks', () => {
    const back = readModelMetadata(made);
    expect(back && sha(back)).toBe(sha(metadata));
    expect(back && (back.byteOffset - made.byteOffset) % 16).toBe(0);
    expect(readModelMetadata(old)).toBeUndefined();
  });

  it('is not given a second entry, and nothing else is taken for a model', () => {
    expect(() => addModelMetadata(made, metadata)).toThrow('already');
    expect(() => addModelMetadata(new Uint8Array(64), metadata)).toThrow('TFL3');
    expect(() => addModelMetadata(new Uint8Array(3), metadata)).toThrow('TFL3');
  });
});

describe.each(['lite', 'full', 'heavy'])('the bundle %s', (size) => {
  it('stores both models under their names, each with its normalisation and its bytes', () => {
    const model = landmarks(size);
    const zip = packTask(detector, model);
    const [first, second, ...more] = members(zip);
    expect(more).toEqual([]);
    for (const [member, name, original, normalisation] of [
      [first, 'pose_detector.tflite', detector, { mean: 127.5, std: 127.5 }],
      [second, 'pose_landmarks_detector.tflite', model, { mean: 0, std: 255 }],
    ] as const) {
      expect(member?.name).toBe(name);
      expect(member?.method).toBe(0);
      const metadata = readModelMetadata(member!.bytes);
      expect(readNormalisationMetadata(metadata!)).toEqual(normalisation);
      expect(sha(member!.bytes.subarray(-original.length))).toBe(sha(original));
    }
    expect(sha(packTask(detector, model))).toBe(sha(zip));
  });
});
