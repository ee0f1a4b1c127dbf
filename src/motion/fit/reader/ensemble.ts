/**
 * Several networks that were taught alike but from different dice read the same frame; what they agree on is surer than what one
 * of them says, and where they don't agree none of them knew (deep ensembles: Lakshminarayanan, Pritzel & Blundell 2017).
 */
import { readInputs, type Network } from './network.ts';

/** Networks of one group, at least one, all of the same sizes. */
export type Ensemble = readonly Network[];

/**
 * Reads one set of inputs with all of them.
 *
 * @param inputs [input] @param values [output] written: their mean @param sigmas [output] written: the root of their mean variance plus that of their values
 */
export function readTogether(nets: Ensemble, inputs: Float64Array, values: Float64Array, sigmas: Float64Array): void {
  readInputs(nets[0]!, inputs, values, sigmas);
  if (nets.length === 1) return;
  const [value, sigma] = [new Float64Array(values.length), new Float64Array(values.length)];
  const first = values.slice();
  const spread = new Float64Array(values.length);
  for (let k = 0; k < values.length; k++) sigmas[k] = sigmas[k]! ** 2;
  for (let n = 1; n < nets.length; n++) {
    readInputs(nets[n]!, inputs, value, sigma);
    for (let k = 0; k < values.length; k++) {
      const off = value[k]! - first[k]!;
      values[k] = values[k]! + off / nets.length;
      spread[k] = spread[k]! + off * off;
      sigmas[k] = sigmas[k]! + sigma[k]! ** 2;
    }
  }
  for (let k = 0; k < values.length; k++) {
    const moved = values[k]! - first[k]!;
    sigmas[k] = Math.sqrt((sigmas[k]! + spread[k]!) / nets.length - moved * moved);
  }
}
