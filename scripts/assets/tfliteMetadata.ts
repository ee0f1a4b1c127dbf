/**
 * Gives a tflite model a metadata entry without rewriting the model.
 *
 * A tflite file is a flatbuffer, and flatbuffer offsets only ever point forward. So a new root table, with
 * its lists of buffers and of metadata, can be put in front of the old bytes and point into them; the old
 * bytes follow unchanged, their old root table unused. Weights keep their 16-byte alignment because
 * the front is a multiple of 16 bytes long. Source of the layout: tensorflow/tensorflow,
 * `tensorflow/lite/schema/schema.fbs` (tables Model, Buffer, Metadata), identifier `TFL3`.
 */
import { ByteBuffer } from 'flatbuffers';

export const MODEL_IDENTIFIER = 'TFL3';
export const METADATA_ENTRY = 'TFLITE_METADATA';

const ALIGN = 16;
// Field numbers of table Model; version is a number, all others are offsets.
const VERSION = 0;
const BUFFERS = 4;
const METADATA = 6;
const LAST_KNOWN_FIELD = 7;
// Field numbers of tables Metadata and Buffer.
const METADATA_NAME = 0;
const METADATA_BUFFER = 1;
const BUFFER_DATA = 0;
const BUFFER_OUTSIDE_OFFSET = 1;

/**
 * Puts a metadata entry named `TFLITE_METADATA` into a model.
 *
 * @param model bytes of a tflite file without that entry
 * @param metadata bytes to be found under the entry
 * @returns a new tflite file: a front of a multiple of 16 bytes, then `model` byte for byte
 * @throws Error when the file is no tflite, has the entry already, or uses parts of the format that this does not know
 */
export function addModelMetadata(model: Uint8Array, metadata: Uint8Array): Uint8Array {
  const old = readModel(model);
  if (old.metadataNames.includes(METADATA_ENTRY)) throw new Error(`the model has a ${METADATA_ENTRY} entry already`);

  // The front is laid out first, in the order in which it is pointed at, then written in one go.
  const fieldCount = Math.max(METADATA, old.lastField) + 1;
  const vtableAt = 8;
  const vtableBytes = 4 + 2 * fieldCount;
  const rootAt = up(vtableAt + vtableBytes, 4);
  const rootBytes = 4 + 4 * fieldCount;
  const buffersAt = rootAt + rootBytes;
  const metadataAt = buffersAt + 4 + 4 * (old.buffers.length + 1);
  const entryVtableAt = metadataAt + 4 + 4 * (old.metadata.length + 1);
  const entryAt = entryVtableAt + 8;
  const bufferVtableAt = entryAt + 12;
  const bufferAt = bufferVtableAt + 8;
  const nameAt = bufferAt + 8;
  const dataAt = up(nameAt + 4 + METADATA_ENTRY.length + 1 + 4, ALIGN) - 4;
  const frontBytes = up(dataAt + 4 + metadata.length, ALIGN);

  const out = new Uint8Array(frontBytes + model.length);
  out.set(model, frontBytes);
  const view = new DataView(out.buffer);
  const pointTo = (at: number, target: number): void => view.setUint32(at, target - at, true);
  const text = (at: number, s: string): void => out.set(new TextEncoder().encode(s), at);

  pointTo(0, rootAt);
  text(4, MODEL_IDENTIFIER);

  view.setUint16(vtableAt, vtableBytes, true);
  view.setUint16(vtableAt + 2, rootBytes, true);
  view.setInt32(rootAt, rootAt - vtableAt, true);
  for (let field = 0; field < fieldCount; field++) {
    const at = rootAt + 4 + 4 * field;
    const oldTarget = old.offsets.get(field);
    if (field === VERSION) view.setUint32(at, old.version, true);
    else if (field === BUFFERS) pointTo(at, buffersAt);
    else if (field === METADATA) pointTo(at, metadataAt);
    else if (oldTarget !== undefined) pointTo(at, frontBytes + oldTarget);
    else continue; // an absent field keeps a 0 in the vtable
    view.setUint16(vtableAt + 4 + 2 * field, 4 + 4 * field, true);
  }

  const vector = (at: number, targets: readonly number[]): void => {
    view.setUint32(at, targets.length, true);
    targets.forEach((target, i) => pointTo(at + 4 + 4 * i, target));
  };
  vector(buffersAt, [...old.buffers.map((t) => frontBytes + t), bufferAt]);
  vector(metadataAt, [...old.metadata.map((t) => frontBytes + t), entryAt]);

  // Metadata entry: name, index of the buffer.
  view.setUint16(entryVtableAt, 8, true);
  view.setUint16(entryVtableAt + 2, 12, true);
  view.setUint16(entryVtableAt + 4, 4, true);
  view.setUint16(entryVtableAt + 6, 8, true);
  view.setInt32(entryAt, entryAt - entryVtableAt, true);
  pointTo(entryAt + 4, nameAt);
  view.setUint32(entryAt + 8, old.buffers.length, true);

  // Buffer: data only. Its vtable is 6 bytes long and padded to 8.
  view.setUint16(bufferVtableAt, 6, true);
  view.setUint16(bufferVtableAt + 2, 8, true);
  view.setUint16(bufferVtableAt + 4, 4, true);
  view.setInt32(bufferAt, bufferAt - bufferVtableAt, true);
  pointTo(bufferAt + 4, dataAt);

  view.setUint32(nameAt, METADATA_ENTRY.length, true);
  text(nameAt + 4, METADATA_ENTRY);
  view.setUint32(dataAt, metadata.length, true);
  out.set(metadata, dataAt + 4);
  return out;
}

/**
 * Reads the bytes under the `TFLITE_METADATA` entry of a model.
 *
 * @returns a view into `model`, or undefined when there is no such entry
 */
export function readModelMetadata(model: Uint8Array): Uint8Array | undefined {
  const read = readModel(model);
  const entry = read.metadata[read.metadataNames.indexOf(METADATA_ENTRY)];
  if (entry === undefined) return undefined;
  const bb = new ByteBuffer(model);
  const indexAt = bb.__offset(entry, slot(METADATA_BUFFER));
  const buffer = read.buffers[indexAt === 0 ? 0 : bb.readUint32(entry + indexAt)];
  if (buffer === undefined) return undefined;
  const dataAt = bb.__offset(buffer, slot(BUFFER_DATA));
  if (dataAt === 0) return undefined;
  const start = bb.__vector(buffer + dataAt);
  return model.subarray(start, start + bb.__vector_len(buffer + dataAt));
}

/** The root of a model: where each field, each buffer and each metadata entry stands, counted from the start of the file. */
interface ModelRoot {
  readonly version: number;
  readonly lastField: number;
  readonly offsets: ReadonlyMap<number, number>;
  readonly buffers: readonly number[];
  readonly metadata: readonly number[];
  readonly metadataNames: readonly string[];
}

/** Reads the root table of a tflite file. */
export function readModel(model: Uint8Array): ModelRoot {
  const bb = new ByteBuffer(model);
  if (model.length < 8 || !bb.__has_identifier(MODEL_IDENTIFIER)) throw new Error('not a tflite model: identifier is not TFL3');
  const root = bb.readInt32(0);
  const vtable = root - bb.readInt32(root);
  const fields = (bb.readUint16(vtable) - 4) / 2;
  const offsets = new Map<number, number>();
  let version = 0;
  let lastField = 0;
  for (let field = 0; field < fields; field++) {
    const at = bb.__offset(root, slot(field));
    if (at === 0) continue;
    if (field > LAST_KNOWN_FIELD) throw new Error(`the model's root has a field (${field}) that is not known here`);
    lastField = field;
    if (field === VERSION) version = bb.readUint32(root + at);
    else offsets.set(field, bb.__indirect(root + at));
  }
  const buffers = vectorTargets(bb, offsets.get(BUFFERS));
  for (const buffer of buffers) {
    if (bb.__offset(buffer, slot(BUFFER_OUTSIDE_OFFSET)) !== 0) throw new Error('the model keeps weights outside the flatbuffer');
  }
  const metadata = vectorTargets(bb, offsets.get(METADATA));
  const metadataNames = metadata.map((entry) => {
    const at = bb.__offset(entry, slot(METADATA_NAME));
    return at === 0 ? '' : String(bb.__string(entry + at));
  });
  return { version, lastField, offsets, buffers, metadata, metadataNames };
}

function vectorTargets(bb: ByteBuffer, vector: number | undefined): number[] {
  if (vector === undefined) return [];
  return Array.from({ length: bb.readUint32(vector) }, (_, i) => bb.__indirect(vector + 4 + 4 * i));
}

/** Offset of a field in a vtable: two leading sizes, then one 16-bit entry a field. */
function slot(field: number): number {
  return 4 + 2 * field;
}

function up(n: number, multiple: number): number {
  return Math.ceil(n / multiple) * multiple;
}
