/**
 * The metadata that tells the pose engine how to turn pixels into model input.
 *
 * The engine refuses a model without it ("requires specifying NormalizationOptions metadata"), and the
 * models as published for the older runtime carry none. Source of the layout (tables and field numbers):
 * tensorflow/tflite-support, `tensorflow_lite_support/metadata/metadata_schema.fbs`, identifier `M001`.
 */
import { Builder, ByteBuffer } from 'flatbuffers';

/** Model input = (pixel - mean) / std, pixels 0..255, the same for all three channels. */
export interface Normalisation {
  readonly mean: number;
  readonly std: number;
}

export const METADATA_IDENTIFIER = 'M001';

// Field numbers of the schema's tables, in the order in which the schema declares the fields.
const MODEL = { subgraphs: 3, minParserVersion: 7, fields: 8 } as const;
const SUBGRAPH = { inputs: 2, fields: 7 } as const;
const TENSOR = { content: 3, processUnits: 4, fields: 7 } as const;
const CONTENT = { kind: 0, value: 1, fields: 3 } as const;
const IMAGE = { colourSpace: 0, fields: 2 } as const;
const UNIT = { kind: 0, value: 1, fields: 2 } as const;
const NORMALISE = { mean: 0, std: 1, fields: 2 } as const;

// Members of the schema's unions and enums.
const CONTENT_IS_IMAGE = 2;
const UNIT_IS_NORMALISATION = 1;
const COLOUR_IS_RGB = 1;

/**
 * Builds the metadata flatbuffer for a model with one RGB image as its input.
 *
 * @returns a finished flatbuffer with identifier `M001`
 */
export function buildNormalisationMetadata({ mean, std }: Normalisation): Uint8Array {
  const b = new Builder(256);

  const meanVector = floatVector(b, mean);
  const stdVector = floatVector(b, std);
  b.startObject(NORMALISE.fields);
  b.addFieldOffset(NORMALISE.mean, meanVector, 0);
  b.addFieldOffset(NORMALISE.std, stdVector, 0);
  const options = b.endObject();

  b.startObject(UNIT.fields);
  b.addFieldInt8(UNIT.kind, UNIT_IS_NORMALISATION, 0);
  b.addFieldOffset(UNIT.value, options, 0);
  const units = tableVector(b, b.endObject());

  b.startObject(IMAGE.fields);
  b.addFieldInt8(IMAGE.colourSpace, COLOUR_IS_RGB, 0);
  const image = b.endObject();

  b.startObject(CONTENT.fields);
  b.addFieldInt8(CONTENT.kind, CONTENT_IS_IMAGE, 0);
  b.addFieldOffset(CONTENT.value, image, 0);
  const content = b.endObject();

  b.startObject(TENSOR.fields);
  b.addFieldOffset(TENSOR.content, content, 0);
  b.addFieldOffset(TENSOR.processUnits, units, 0);
  const inputs = tableVector(b, b.endObject());

  b.startObject(SUBGRAPH.fields);
  b.addFieldOffset(SUBGRAPH.inputs, inputs, 0);
  const subgraphs = tableVector(b, b.endObject());

  const minParserVersion = b.createString('1.0.0');
  b.startObject(MODEL.fields);
  b.addFieldOffset(MODEL.subgraphs, subgraphs, 0);
  b.addFieldOffset(MODEL.minParserVersion, minParserVersion, 0);
  b.finish(b.endObject(), METADATA_IDENTIFIER);
  return b.asUint8Array().slice();
}

/**
 * Reads back what {@link buildNormalisationMetadata} wrote.
 *
 * @returns the normalisation of the first input of the first subgraph
 * @throws Error when the bytes carry no such metadata
 */
export function readNormalisationMetadata(bytes: Uint8Array): Normalisation {
  const bb = new ByteBuffer(bytes);
  if (!bb.__has_identifier(METADATA_IDENTIFIER)) throw new Error('not model metadata: identifier is not M001');
  const model = bb.readInt32(0);
  const subgraph = firstOf(bb, model, MODEL.subgraphs);
  const tensor = firstOf(bb, subgraph, SUBGRAPH.inputs);
  const unit = firstOf(bb, tensor, TENSOR.processUnits);
  const kindAt = bb.__offset(unit, slot(UNIT.kind));
  if (kindAt === 0 || bb.readUint8(unit + kindAt) !== UNIT_IS_NORMALISATION) throw new Error('first process unit is no normalisation');
  const options = bb.__indirect(unit + bb.__offset(unit, slot(UNIT.value)));
  return { mean: firstFloat(bb, options, NORMALISE.mean), std: firstFloat(bb, options, NORMALISE.std) };
}

/** Offset of a field in a vtable: two leading sizes, then one 16-bit entry a field. */
function slot(field: number): number {
  return 4 + 2 * field;
}

function floatVector(b: Builder, value: number): number {
  b.startVector(4, 1, 4);
  b.addFloat32(value);
  return b.endVector();
}

function tableVector(b: Builder, table: number): number {
  b.startVector(4, 1, 4);
  b.addOffset(table);
  return b.endVector();
}

function vectorAt(bb: ByteBuffer, table: number, field: number): number {
  const at = bb.__offset(table, slot(field));
  if (at === 0 || bb.__vector_len(table + at) === 0) throw new Error(`metadata field ${field} is missing`);
  return bb.__vector(table + at);
}

function firstOf(bb: ByteBuffer, table: number, field: number): number {
  return bb.__indirect(vectorAt(bb, table, field));
}

function firstFloat(bb: ByteBuffer, table: number, field: number): number {
  return bb.readFloat32(vectorAt(bb, table, field));
}
