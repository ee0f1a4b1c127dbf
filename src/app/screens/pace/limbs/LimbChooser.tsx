/** Which limbs have their lines in the chart of speeds. */
import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import { LIMB_WORDS } from '../../../../charts/moments/limbWords.ts';
import { type Limb, LIMBS } from '../../../../timing/moments/moments.ts';
import { paceView } from '../../../state/paceView.ts';

export function LimbChooser(): ReactElement {
  const hidden = useStore(paceView, (s) => s.hidden);
  const toggle = (limb: Limb): void => paceView.setState({ hidden: hidden.includes(limb) ? hidden.filter((one) => one !== limb) : [...hidden, limb] });
  return (
    <div className="field" role="group" aria-label="Limbs shown">
      <span className="field-label">Limbs</span>
      <span className="limb-keys">{LIMBS.map((limb) => <button key={limb} type="button" className="small" aria-pressed={!hidden.includes(limb)} onClick={() => toggle(limb)}>{LIMB_WORDS[limb]}</button>)}</span>
    </div>
  );
}
