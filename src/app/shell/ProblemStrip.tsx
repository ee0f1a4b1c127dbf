/** What went wrong last: the sentence, what to do about it, and the code for those who report it. */
import type { ReactElement } from 'react';
import { dismissProblem } from '../state/problems.ts';
import { useSession } from '../state/use.ts';

export function ProblemStrip(): ReactElement | null {
  const problem = useSession((s) => s.problem);
  if (problem === null) return null;
  return (
    <div className="problem" role="alert">
      <p>
        <strong>{problem.sentence}</strong> {problem.tip}
      </p>
      <details>
        <summary>Details</summary>
        <code>{problem.code}</code>
      </details>
      <button type="button" className="small" onClick={dismissProblem}>Dismiss</button>
    </div>
  );
}
