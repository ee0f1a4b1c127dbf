/**
 * Where everything that goes wrong ends: in one strip with a sentence and a tip, and in the console for those who look.
 */
import { NudgebookError, toErrorData } from '../../errors.ts';
import { say, session } from './session.ts';

/** Shows what was thrown; a thing that a person cancelled is no problem. */
export function showProblem(thrown: unknown): void {
  if (thrown instanceof NudgebookError && thrown.code === 'cancelled') return;
  if (thrown instanceof DOMException && thrown.name === 'AbortError') return;
  console.error(thrown);
  const problem = toErrorData(thrown);
  session.setState({ problem });
  say(`${problem.sentence} ${problem.tip}`);
}

/** Takes the strip away. */
export function dismissProblem(): void {
  session.setState({ problem: null });
}

/** Runs something that may fail later, and shows it if it does. */
export function attempt(work: () => Promise<void>): void {
  work().catch(showProblem);
}
