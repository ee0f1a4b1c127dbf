/** The worker that writes files: the plan of a minute is megabytes of text. */
import { toErrorData } from '../../errors.ts';
import { workerPort } from '../../footage/workerPort.ts';
import { fileOf } from './fileOf.ts';
import type { FromSaveWorker, ToSaveWorker } from './saveProtocol.ts';

const port = workerPort<ToSaveWorker, FromSaveWorker>();

port.onMessage((asked) => {
  try {
    port.post({ kind: 'written', file: fileOf(asked) });
  } catch (thrown) {
    port.post({ kind: 'failed', error: toErrorData(thrown) });
  }
});
