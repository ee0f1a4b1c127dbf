/** Which joints have their columns on the sheet: all of them are listed, those that cannot be seen say so. */
import { type ReactElement, useEffect, useRef, useState } from 'react';
import { jointWords } from '../../../charts/figures.ts';
import { session } from '../../state/session.ts';
import { useSession } from '../../state/use.ts';

export function JointChooser({ shown }: { readonly shown: readonly number[] }): ReactElement {
  const plan = useSession((s) => s.plan);
  const chosen = useSession((s) => s.joints);
  const [open, setOpen] = useState(false);
  const box = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);

  useEffect(() => {
    if (!open) return;
    const onPointer = (event: PointerEvent): void => {
      if (!box.current?.contains(event.target as Node)) setOpen(false);
    };
    window.addEventListener('pointerdown', onPointer);
    return () => window.removeEventListener('pointerdown', onPointer);
  }, [open]);

  const names = plan === null ? [] : shown.map((j) => plan.joints[j]?.name ?? '');
  const toggle = (name: string): void => {
    session.setState({ joints: names.includes(name) ? names.filter((n) => n !== name) : [...names, name] });
  };
  return (
    <div
      className="field joint-chooser"
      ref={box}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !open) return;
        setOpen(false);
        button.current?.focus();
        event.stopPropagation();
      }}
    >
      <span className="field-label">Joints</span>
      <button ref={button} type="button" disabled={plan === null} aria-expanded={open} onClick={() => setOpen(!open)}>
        {plan === null ? 'none' : `${shown.length} of ${plan.joints.length}`} <span aria-hidden="true">▾</span>
      </button>
      {open && plan !== null ? (
        <fieldset className="joint-list">
          <legend className="unseen">Joints to show</legend>
          {plan.joints.map((joint) => (
            <label key={joint.name} className="check">
              <input type="checkbox" checked={names.includes(joint.name)} disabled={!joint.observable} onChange={() => toggle(joint.name)} />
              <span>
                {jointWords(joint.name)}
                {joint.observable ? null : <em> cannot be seen in this footage</em>}
              </span>
            </label>
          ))}
          <button type="button" disabled={chosen === null} onClick={() => session.setState({ joints: null })}>The four that move most</button>
        </fieldset>
      ) : null}
    </div>
  );
}
