/** What sigma of the margin the joints' errors would give if each were independent of the others: for comparison only. */
import { massSigma } from '../../src/balance/massSigma.ts';
import { DEFAULT_POISE } from '../../src/balance/poiseSettings.ts';
import { weightsOf } from '../../src/balance/puppetMass.ts';
import { contactsOf, touchersOf } from '../../src/balance/touching.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { Armature } from '../../src/puppet/armature.ts';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { feetOf } from '../../src/puppet/feet.ts';

/** `[N·2]` mm along X and Z. */
export function independentSigma(plan: Plan, document: Armature): Float64Array {
  const armature = completeArmature(document);
  const feet = feetOf(armature, armature.drives);
  const moved = {
    ...plan, feet, stands: plan.planted, placed: [], flags: new Uint8Array(plan.flags.length), unsure: new Uint8Array(plan.unsure.length),
  };
  const touchers = touchersOf(armature, feet, []);
  const contacts = contactsOf(touchers, moved, plan.planted, plan.sourceTimeS, DEFAULT_POISE);
  return massSigma({
    armature, weights: weightsOf(armature, []), moved: { ...moved, unsure: new Uint8Array(plan.unsure.length).fill(1) }, touchers, contacts,
    mmPerM: armature.heightMm / plan.performerHeightM, corrected: new Uint8Array(plan.stepCount),
  });
}
