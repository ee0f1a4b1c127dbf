/**
 * Drawing in turn: what a new plan changes on the screen is drawn piece by piece, each in a task of its own, so that keys
 * and pointer are heard in between. What stood there before stays until its turn comes.
 */
type Work = () => void;

/** Calls back in a task of its own, soon; unlike a timer without the browser's least delay. */
function taskSoon(): (run: Work) => void {
  if (typeof MessageChannel === 'undefined') return (run) => void setTimeout(run, 0);
  const { port1, port2 } = new MessageChannel();
  const runs: Work[] = [];
  port1.onmessage = () => runs.shift()?.();
  return (run) => {
    runs.push(run);
    port2.postMessage(null);
  };
}

function createTurns(soon: (run: Work) => void): (owner: object, work: Work) => () => void {
  const queue = new Map<object, Work>();
  let asked = false;
  const next = (): void => {
    asked = false;
    const [first] = queue;
    if (first === undefined) return;
    queue.delete(first[0]);
    // Asked for before the work, so that one piece that fails does not keep the others from being drawn.
    ask();
    first[1]();
  };
  const ask = (): void => {
    if (asked || queue.size === 0) return;
    asked = true;
    soon(next);
  };
  return (owner, work) => {
    queue.set(owner, work);
    ask();
    return () => {
      if (queue.get(owner) === work) queue.delete(owner);
    };
  };
}

let task: ((run: Work) => void) | null = null;

/**
 * Draws something soon, in a task of its own.
 *
 * @param owner what the drawing belongs to; of several drawings of one owner that wait, only the latest is made
 * @returns how to call it off
 */
export const drawInTurn = createTurns((run) => (task ??= taskSoon())(run));

/** The same for pieces whose layout is the larger part of their cost: one in each display frame. */
export const layInTurn = createTurns((run) => void requestAnimationFrame(run));
