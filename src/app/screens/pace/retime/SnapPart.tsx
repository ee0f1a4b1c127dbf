/** Which joints' extremes are drawn to the nearest step, and how much time that bends. */
import type { ReactElement } from 'react';
import { figure, jointWords, signedFigure } from '../../../../charts/figures.ts';
import { JOINT_NAMES, type JointName } from '../../../../motion/joints.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { goToStep } from '../../../state/commands.ts';
import { nearestStep } from '../../../state/nearestStep.ts';
import { editTiming } from '../../../state/timingEdits.ts';
import { useBook } from '../../../state/use.ts';

export function SnapPart({ plan }: { readonly plan: Plan }): ReactElement {
  const snapJoints = useBook((b) => b.timing.snapJoints);
  const moving = JOINT_NAMES.filter((name) => plan.joints.some((joint) => joint.source === name && joint.observable));
  const toggle = (name: JointName): void => {
    const on = snapJoints.includes(name);
    editTiming((timing) => ({ ...timing, snapJoints: on ? timing.snapJoints.filter((one) => one !== name) : JOINT_NAMES.filter((one) => one === name || timing.snapJoints.includes(one)) }), { label: `extremes of the ${jointWords(name)} ${on ? 'as they fall' : 'on steps'}` });
  };
  const { bent, left } = plan.bentTime;
  const most = bent.reduce((largest, { fromFilmS, toFilmS }) => Math.max(largest, Math.abs(toFilmS - fromFilmS)), 0);
  return (
    <details className="snap-part">
      <summary>Extremes on steps{snapJoints.length > 0 ? `: ${snapJoints.length} ${snapJoints.length === 1 ? 'joint' : 'joints'}` : ''}</summary>
      <p className="hint">The farthest bend of a joint usually falls between two poses and is lost. For the joints chosen here the time is bent a little, so that it falls on one.</p>
      <div className="snap-joints">
        {moving.map((name) => (
          <label key={name} className="check"><input type="checkbox" checked={snapJoints.includes(name)} onChange={() => toggle(name)} /><span>{jointWords(name)}</span></label>
        ))}
      </div>
      {snapJoints.length === 0 ? null : bent.length === 0 ? <p className="hint">No extreme of these joints had to move.</p> : (
        <>
          <p>{bent.length} {bent.length === 1 ? 'extreme' : 'extremes'} moved, by {figure(most * plan.rate, 1)} exposures ({figure(most, 3)} s) at most{left.length > 0 ? `; ${left.length} stay between steps, too near to another or to a mark` : ''}.</p>
          <table className="keys">
            <thead><tr><th scope="col">joint</th><th scope="col">angle, °</th><th scope="col">step</th><th scope="col">moved, exposures</th></tr></thead>
            <tbody>
              {bent.map(({ joint, sourceS, angleDeg, fromFilmS, toFilmS }) => (
                <tr key={`${joint}${sourceS}`}>
                  <td>{jointWords(joint)}</td><td>{figure(angleDeg, 0)}</td>
                  <td><button type="button" className="small" title="Go there" onClick={() => goToStep(nearestStep(plan, sourceS))}>{nearestStep(plan, sourceS) + 1}</button></td>
                  <td>{signedFigure((toFilmS - fromFilmS) * plan.rate, 1)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
    </details>
  );
}
