/**
 * The page's end of one pose worker: a promise for each command, none of which is ever left hanging.
 */
import { fromErrorData, NudgebookError } from '../errors.ts';
import type { FrameCounter } from '../footage/readFrames.ts';
import type { Chunk } from './chunks.ts';
import type { FromPoseWorker, PosedFrame, ToPoseWorker } from './protocol.ts';

/** The part of a Worker that is used, so that a test can stand in for it. */
export type PoseWorkerLike = Pick<Worker, 'postMessage' | 'terminate' | 'addEventListener'>;

interface Pending {
  readonly resolve: () => void;
  readonly reject: (error: NudgebookError) => void;
}

export class PoseWorkerClient {
  readonly #worker: PoseWorkerLike;
  readonly #onFrame: (frame: PosedFrame) => void;
  #pending: Pending | undefined;
  #ended: NudgebookError | undefined;
  #frames: FrameCounter = { opened: 0, closed: 0 };

  constructor(worker: PoseWorkerLike, onFrame: (frame: PosedFrame) => void) {
    this.#worker = worker;
    this.#onFrame = onFrame;
    worker.addEventListener('message', (event) => this.#receive((event as MessageEvent<FromPoseWorker>).data));
    worker.addEventListener('error', (event) => {
      // Reported here, through the promise; it must not surface a second time as an error of the page.
      event.preventDefault();
      this.#end(crashed((event as ErrorEvent).message));
    });
    worker.addEventListener('messageerror', () => this.#end(crashed('a message could not be read')));
  }

  /** Frames that the worker took from its decoder and gave back, as of its last finished chunk. */
  get frames(): Readonly<FrameCounter> {
    return this.#frames;
  }

  /** Loads engine and clip. */
  start(message: Extract<ToPoseWorker, { kind: 'start' }>): Promise<void> {
    return this.#ask(message);
  }

  /** Poses a chunk; its frames come through the callback, then the promise is kept. */
  pose(chunk: Chunk): Promise<void> {
    return this.#ask({ kind: 'chunk', chunk });
  }

  /** Ends the worker at once; what is pending is rejected with the reason. */
  terminate(reason: NudgebookError): void {
    this.#end(reason);
  }

  #ask(message: ToPoseWorker): Promise<void> {
    return new Promise((resolve, reject) => {
      if (this.#ended) {
        reject(this.#ended);
        return;
      }
      this.#pending = { resolve, reject };
      this.#worker.postMessage(message);
    });
  }

  #receive(message: FromPoseWorker): void {
    if (this.#ended) return;
    switch (message.kind) {
      case 'posed':
        this.#onFrame(message.frame);
        break;
      case 'chunk-done':
        this.#frames = { opened: message.opened, closed: message.closed };
        this.#keep();
        break;
      case 'ready':
        this.#keep();
        break;
      case 'failed':
        this.#end(fromErrorData(message.error));
        break;
    }
  }

  #keep(): void {
    const pending = this.#pending;
    this.#pending = undefined;
    pending?.resolve();
  }

  #end(reason: NudgebookError): void {
    if (this.#ended) return;
    this.#ended = reason;
    this.#worker.terminate();
    const pending = this.#pending;
    this.#pending = undefined;
    pending?.reject(reason);
  }
}

function crashed(said: string): NudgebookError {
  return new NudgebookError('internal', `A pose worker stopped: ${said || 'no reason given'}.`, 'Run the pose again; with a long or large clip, try the model "lite".');
}
