/**
 * `npm run reader`: teaches the readers of `motion/fit/reader` from the practice clips, and says how well they read clips that were left out.
 *
 *     npm run reader -- [--model heavy,full,lite] [--pose] [--check] [--write]
 *
 * --pose poses practice clips that have no track yet, --check leaves each clip out once, --write puts the readers in place.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { readTogether, type Ensemble } from '../../src/motion/fit/reader/ensemble.ts';
import { pack, type Packed } from '../../src/motion/fit/reader/packed.ts';
import { GROUPS, type Group } from '../../src/motion/fit/reader/groups.ts';
import { TAUGHT } from '../../src/motion/fit/reader/taught.ts';
import { MODEL_SIZES, type ModelSize } from '../../src/pose/track.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { ofGroup, posePractice, practiceSamples, together, type Samples } from './samples.ts';
import { teach, type Teaching } from './train.ts';

const FILE = join(PROJECT_FOLDER, 'src', 'motion', 'fit', 'reader', 'taught.ts');
const TEACHING: Teaching = { first: 40, second: 28, epochs: 60, rate: 0.002, decay: 0.01, noise: 0.2, seed: 1 };
/** Networks that read together; each from dice of its own. */
const TOGETHER = 3;
const FOLDS = 5;
const OUTPUTS = ['shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle'].flatMap((joint) => [`${joint} x`, `${joint} y`])
  .concat(['upper arm', 'forearm', 'thigh', 'shank', 'hips', 'spine', 'shoulders', 'elbow bent', 'knee bent']);

const { values } = parseArgs({ options: { model: { type: 'string', default: MODEL_SIZES.join(',') }, pose: { type: 'boolean', default: false }, write: { type: 'boolean', default: false }, check: { type: 'boolean', default: false } } });
const asked = MODEL_SIZES.filter((size) => values.model.split(',').includes(size));

const teachGroup = (group: Group, lots: readonly Samples[]): Ensemble => {
  const samples = ofGroup(group, together(lots));
  return Array.from({ length: TOGETHER }, (_, k) => teach(samples, { ...TEACHING, seed: TEACHING.seed + k }));
};

/** Squared error of each output, read and unread, and the share within one sigma. */
function errorsOf(group: Group, nets: Ensemble, { count, inputs, wanted }: Samples, sums: number[][]): void {
  const outputs = group.outputs.length;
  const [value, sigma] = [new Float64Array(outputs), new Float64Array(outputs)];
  const width = inputs.length / count;
  for (let n = 0; n < count; n++) {
    readTogether(nets, inputs.subarray(n * width, (n + 1) * width), value, sigma);
    group.outputs.forEach((output, k) => {
      const off = value[k]! - wanted[n * outputs + k]!;
      sums[output]![0]! += off * off;
      sums[output]![1]! += Math.abs(off) < sigma[k]! ? 1 : 0;
      sums[output]![2]! += 1;
    });
  }
}

const made: Partial<Record<ModelSize, readonly (readonly Packed[])[]>> = {};
for (const model of asked) {
  if (values.pose) await posePractice(model);
  const clips = practiceSamples(model);
  if (clips.length < FOLDS) {
    console.error(`${model}: ${clips.length} practice clips have been posed, too few.`);
    continue;
  }
  if (values.check) {
    const sums = OUTPUTS.map(() => [0, 0, 0]);
    for (let fold = 0; fold < FOLDS; fold++) {
      for (const group of GROUPS) {
        const nets = teachGroup(group, clips.filter((_, k) => k % FOLDS !== fold).map(({ samples }) => samples));
        for (const { samples } of clips.filter((_, k) => k % FOLDS === fold)) errorsOf(group, nets, ofGroup(group, samples), sums);
      }
      process.stderr.write('.');
    }
    console.log(`${model}, ${clips.length} clips, each left out once: root mean square error (share within one sigma)`);
    console.log(OUTPUTS.map((name, k) => `${name} ${Math.sqrt(sums[k]![0]! / sums[k]![2]!).toFixed(3)} (${((100 * sums[k]![1]!) / sums[k]![2]!).toFixed(0)} %)`).join(', '));
  }
  if (values.write) made[model] = GROUPS.map((group) => teachGroup(group, clips.map(({ samples }) => samples)).map(pack));
}
const written = ({ sizes, steps, numbers }: Packed): string =>
  `      {\n        sizes: [${sizes.join(', ')}],\n        steps: [${steps.map((step) => step.toPrecision(6)).join(', ')}],\n        numbers: '${numbers}',\n      },`;

if (values.write) {
  const one = (model: ModelSize): string => {
    const packed = made[model] ?? TAUGHT[model];
    if (packed === null) return `  ${model}: null,`;
    return `  ${model}: [\n${packed.map((group) => `    [\n${group.map(written).join('\n')}\n    ],`).join('\n')}\n  ],`;
  };
  writeFileSync(FILE, `/**
 * What the readers were taught. Written by \`npm run reader -- --write\`, not by hand.
 */
import type { ModelSize } from '../../../pose/track.ts';
import type { Packed } from './packed.ts';

export const TAUGHT: Readonly<Record<ModelSize, readonly (readonly Packed[])[] | null>> = {
${MODEL_SIZES.map(one).join('\n')}
};
`);
}
