/**
 * Where the pose models lie and what they are called by content.
 *
 * The files are made by `scripts/assets/prepare.ts` and served from the app's own origin.
 */
import { NudgebookError } from '../errors.ts';
import { MODEL_SIZES, type ModelSize } from './track.ts';

/** Address of the served folder that holds `wasm/` and `models/`; absolute, with a slash at its end. */
export function assetsUrl(): string {
  return new URL(import.meta.env.BASE_URL, document.baseURI).href;
}

/** Address of a model bundle under {@link assetsUrl}. */
export function modelUrl(base: string, model: ModelSize): string {
  return new URL(`models/pose_landmarker_${model}.task`, base).href;
}

function modelMissing(model: ModelSize, cause?: unknown): NudgebookError {
  return new NudgebookError('model-missing', `The pose model "${model}" cannot be loaded.`, 'Run `npm start` again: it makes the model files when the app is built.', cause);
}

/**
 * Loads a model bundle.
 *
 * @throws NudgebookError `model-missing`
 */
export async function loadModel(base: string, model: ModelSize): Promise<Uint8Array> {
  const missing = (cause: unknown): never => {
    throw modelMissing(model, cause);
  };
  // Not through the browser's cache: where it is small (a private window), workers that load the same model at the same
  // moment share one entry, and when the entry grows too large the browser drops the answers of all but one.
  const response = await fetch(modelUrl(base, model), { cache: 'no-store' }).catch(missing);
  const bytes = response.ok ? new Uint8Array(await response.arrayBuffer().catch(missing)) : new Uint8Array(0);
  // A bundle is a zip; a server for single-page apps answers an unknown address with a page.
  if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) throw modelMissing(model, `status ${response.status}`);
  return bytes;
}

/**
 * SHA-256 of a model bundle, hex: together with a clip's hash the name under which its track is kept, so that a
 * track is not taken for the work of another model.
 *
 * @throws NudgebookError `model-missing`
 */
export async function modelHash(model: ModelSize, base = assetsUrl()): Promise<string> {
  const response = await fetch(new URL('models/hashes.json', base)).catch((cause: unknown) => {
    throw modelMissing(model, cause);
  });
  const hashes: unknown = response.ok ? await response.json().catch(() => undefined) : undefined;
  const hash = isHashes(hashes) ? hashes[model] : undefined;
  if (hash === undefined) throw modelMissing(model, `status ${response.status}`);
  return hash;
}

function isHashes(value: unknown): value is Record<ModelSize, string> {
  return typeof value === 'object' && value !== null && MODEL_SIZES.every((size) => typeof (value as Record<string, unknown>)[size] === 'string');
}
