/** All joints in the order they hang on each other; one of them is picked, for everything on this screen. */
import { type ReactElement, type ReactNode, useEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { jointWords } from '../../../charts/figures.ts';
import type { CompleteArmature } from '../../../puppet/complete.ts';
import { pickJoint, puppetView } from '../../puppet3d/puppetView.ts';
import { KindSign } from './KindSign.tsx';

export interface JointListProps {
  readonly armature: CompleteArmature;
  readonly label: string;
  /** What stands behind each name. */
  readonly about: (joint: number) => ReactNode;
  /** What opens below the picked one. */
  readonly below?: (joint: number) => ReactNode;
}

/** How deep a joint hangs, for the indent. */
function depths(armature: CompleteArmature): number[] {
  const depth: number[] = [];
  armature.joints.forEach(({ parentIndex }, p) => { depth[p] = parentIndex < 0 ? 0 : depth[parentIndex]! + 1; });
  return depth;
}

export function JointList({ armature, label, about, below }: JointListProps): ReactElement {
  const picked = useStore(puppetView, (s) => s.picked);
  const depth = depths(armature);
  return (
    <ul className="joint-rows" aria-label={label}>
      {armature.joints.map((joint, p) => (
        <li key={joint.name}>
          <button type="button" aria-pressed={joint.name === picked} style={{ paddingLeft: 8 + Math.min(6, depth[p]!) * 10 }} onClick={() => pickJoint(joint.name === picked ? null : joint.name)}>
            <KindSign kind={joint.kind} />
            <span className="joint-name">{jointWords(joint.name)}</span>
          </button>
          <span className="joint-about">{about(p)}</span>
          {below !== undefined && joint.name === picked ? <Below>{below(p)}</Below> : null}
        </li>
      ))}
    </ul>
  );
}

/** What opens comes into view, with as much of it as there is room for. */
function Below({ children }: { readonly children: ReactNode }): ReactElement {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // Newer browsers give a promise back, which is no way to clean up an effect.
    void box.current?.parentElement?.scrollIntoView({ block: 'nearest' });
  }, []);
  return <div ref={box} className="joint-below">{children}</div>;
}
