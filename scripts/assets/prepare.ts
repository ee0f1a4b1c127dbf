/**
 * Gathers everything that the app serves beside its own code into `generated/public/`:
 * the pose engine's wasm, the pose models, our reference clips. Run it before building or serving; run again
 * it finds everything good and does nothing.
 *
 *     npx tsx scripts/assets/prepare.ts
 */
import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { MadeFiles } from './freshness.ts';
import { licencesText } from './licences.ts';
import { packTask } from './taskBundle.ts';

const MODEL_SIZES = ['lite', 'full', 'heavy'] as const;
/** Change when the packer changes, so that bundles made by the old one are made anew. */
const PACK_RECIPE = 'task-1';
/** The build of the engine that a module worker loads; the others are for classic scripts and old machines. */
const WASM_FILES = ['vision_wasm_module_internal.js', 'vision_wasm_module_internal.wasm'] as const;
const CLIP_ENDINGS = ['.webm', '.mp4', '.json'] as const;

/**
 * Fills `generated/public/` under the given root.
 *
 * @param rootDir root of the repository
 * @param say told one line for each file that had to be made
 * @returns path of the folder to serve
 */
export async function prepareAssets(rootDir: string, say: (line: string) => void = () => undefined): Promise<string> {
  const require = createRequire(path.join(rootDir, 'package.json'));
  const publicDir = path.join(rootDir, 'generated', 'public');
  const made = await MadeFiles.open(path.join(rootDir, 'generated', 'assets-made.json'));
  const make = async (name: string, sources: readonly string[], recipe: string, bytes: () => Promise<Uint8Array>): Promise<void> => {
    if (await made.make(path.join(publicDir, name), sources, recipe, bytes)) say(`made ${name}`);
  };
  const copy = (name: string, source: string): Promise<void> => make(name, [source], 'copy', () => readFile(source));

  const poseDir = path.dirname(require.resolve('@mediapipe/pose/package.json'));
  // The packed assets hold one file only, the person detector, so the file as it stands is that model.
  const detector = path.join(poseDir, 'pose_solution_packed_assets.data');
  for (const size of MODEL_SIZES) {
    const landmarks = path.join(poseDir, `pose_landmark_${size}.tflite`);
    await make(`models/pose_landmarker_${size}.task`, [detector, landmarks], PACK_RECIPE, async () =>
      packTask(await readFile(detector), await readFile(landmarks)));
  }
  const bundles = MODEL_SIZES.map((size) => path.join(publicDir, 'models', `pose_landmarker_${size}.task`));
  await make('models/hashes.json', bundles, 'sha256-1', async () => {
    const hashes = await Promise.all(bundles.map(async (file, i) =>
      [MODEL_SIZES[i], createHash('sha256').update(await readFile(file)).digest('hex')]));
    return new TextEncoder().encode(`${JSON.stringify(Object.fromEntries(hashes), null, 1)}\n`);
  });

  for (const file of WASM_FILES) await copy(`wasm/${file}`, require.resolve(`@mediapipe/tasks-vision/${file}`));

  const noticed = ['NOTICE', 'LICENSE', 'package-lock.json'].map((name) => path.join(rootDir, name));
  await make('licences.txt', noticed, 'licences-1', async () => new TextEncoder().encode(licencesText(rootDir)));

  const clipsDir = path.join(rootDir, 'reference-clips');
  const isClip = (file: string): boolean => CLIP_ENDINGS.some((ending) => file.endsWith(ending));
  const clips = (await readdir(clipsDir).catch(() => [])).filter(isClip).sort();
  for (const file of clips) await copy(`reference-clips/${file}`, path.join(clipsDir, file));
  const served = path.join(publicDir, 'reference-clips');
  for (const file of await readdir(served).catch(() => [])) {
    if (!clips.includes(file)) await made.remove(path.join(served, file));
  }

  await made.save();
  return publicDir;
}

const startedDirectly = process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href;
if (startedDirectly) {
  const rootDir = fileURLToPath(new URL('../..', import.meta.url));
  await prepareAssets(rootDir, (line) => console.log(line));
}
