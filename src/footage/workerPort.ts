/**
 * A worker's own end of its channel, typed by the messages that go over it.
 *
 * The project's type settings describe a page; this is the small part of a worker's global that we use.
 */
export interface WorkerPort<In, Out> {
  post(message: Out, transfer?: readonly Transferable[]): void;
  onMessage(handle: (message: In) => void): void;
}

interface WorkerGlobal {
  postMessage(message: unknown, transfer: Transferable[]): void;
  addEventListener(type: 'message', listener: (event: MessageEvent<unknown>) => void): void;
}

/** The port of the worker that calls this. */
export function workerPort<In, Out>(): WorkerPort<In, Out> {
  const scope = globalThis as unknown as WorkerGlobal;
  return {
    post: (message, transfer = []) => scope.postMessage(message, [...transfer]),
    // Both ends come out of the same build, so the type of a message needs no check at run time.
    onMessage: (handle) => scope.addEventListener('message', (event) => handle(event.data as In)),
  };
}
