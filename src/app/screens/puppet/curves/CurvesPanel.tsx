/** The keys of the curve as figures: typed, added, removed, eased. */
import type { ReactElement } from 'react';
import { figure, jointWords } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import type { CompleteArmature } from '../../../../puppet/complete.ts';
import { EASES } from '../../../../puppet/puppetSettings.ts';
import { Choice } from '../../../fields/Choice.tsx';
import { MeasureField } from '../../../fields/MeasureField.tsx';
import { Select } from '../../../fields/Select.tsx';
import { pickJoint, puppetView } from '../../../puppet3d/puppetView.ts';
import { goToStep } from '../../../state/commands.ts';
import { nearestStep } from '../../../state/nearestStep.ts';
import { playhead } from '../../../state/playhead.ts';
import { useBook } from '../../../state/use.ts';
import { StepField, timeOfStep } from '../sources/StepField.tsx';
import { addKey, changeKey, type Curve, removeKey } from './useCurve.ts';
import { curveValues } from '../../../../puppet/handCurve.ts';

const AXIS_WORDS = { axis: 'its axis', forward: 'forward', up: 'up', right: 'right' } as const;

export function CurvesPanel({ plan, armature, curve }: { readonly plan: Plan; readonly armature: CompleteArmature; readonly curve: Curve }): ReactElement {
  const curves = useBook((b) => b.puppet.curves);
  const drive = armature.drives.find(({ joint }) => joint === curve.joint);
  const addHere = (): void => {
    const timeS = timeOfStep(plan, playhead.getState().step);
    // A new key on the curve changes nothing yet: it is a handle to take hold of.
    const valueDeg = curve.keys.length === 0 ? 0 : Math.round((curveValues(curve.keys, [timeS])[0] ?? 0) * 100) / 100;
    addKey(curve, { timeS, valueDeg, ease: 'smooth' });
  };
  return (
    <section className="panel" aria-labelledby="curve-title">
      <h2 id="curve-title">Hand curve: {jointWords(curve.joint)}</h2>
      <p className="hint">{drive?.from === null || drive === undefined ? 'Nothing else moves this joint.' : `Added to what the performer’s ${jointWords(drive.from)} gives.`} Drag a key, double-click for a new one, or type below.</p>
      <div className="field-grid">
        <Select
          label="Joint"
          value={curve.joint}
          options={armature.joints.map(({ name }) => ({ value: name, words: `${jointWords(name)}${curves.some((c) => c.joint === name) ? ' · has a curve' : ''}` }))}
          onChoose={pickJoint}
        />
        {curve.axes.length > 1 ? (
          <Choice label="Turn about" value={curve.axis} options={curve.axes.map((axis) => ({ value: axis, words: AXIS_WORDS[axis] }))} onChoose={(axis) => puppetView.setState({ picked: curve.joint, curveAxis: axis, curveKey: -1 })} />
        ) : null}
      </div>
      <div className="buttons"><button type="button" className="lamp" onClick={addHere}>Key at this step</button></div>
      {curve.keys.length === 0 ? <p className="hint">No keys yet. Go to a step and press the button.</p> : (
        <table className="keys">
          <thead><tr><th scope="col">step</th><th scope="col">degrees</th><th scope="col">from here on</th><th scope="col"><span className="unseen">remove</span></th></tr></thead>
          <tbody>
            {curve.keys.map((key, i) => (
              <tr key={i} className={i === curve.picked ? 'picked' : ''} onFocus={() => { puppetView.setState({ curveKey: i, curveAxis: curve.axis, picked: curve.joint }); goToStep(nearestStep(plan, key.timeS)); }}>
                <td><StepField label={`Step of key ${i + 1}`} hideLabel plan={plan} timeS={key.timeS} onCommit={(timeS) => changeKey(curve, i, { timeS })} /></td>
                <td><MeasureField label={`Degrees of key ${i + 1}`} hideLabel quantity="angle" value={key.valueDeg} min={-3600} max={3600} step={1} widthCh={6} onCommit={(v) => v !== null && changeKey(curve, i, { valueDeg: v })} /></td>
                <td><Select label={`Ease from key ${i + 1} on`} hideLabel value={key.ease} options={EASES.map((ease) => ({ value: ease, words: ease }))} onChoose={(ease) => changeKey(curve, i, { ease })} /></td>
                <td><button type="button" className="small" aria-label={`Remove key ${i + 1}`} onClick={() => removeKey(curve, i)}>✕</button></td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {curve.limitsDeg === null ? null : <p className="hint">Hatched in the column: beyond the joint’s limits, {figure(curve.limitsDeg[0], 0)}° to {figure(curve.limitsDeg[1], 0)}°.</p>}
    </section>
  );
}
