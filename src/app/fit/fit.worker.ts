/** The worker of the body fit: seconds of arithmetic for a long take, away from the page. */
import { workerPort } from '../../footage/workerPort.ts';
import { memoryOf } from '../worker/memoryOf.ts';
import { createFitDesk } from './fitDesk.ts';
import type { FromFitWorker, ToFitWorker } from './fitProtocol.ts';

const port = workerPort<ToFitWorker, FromFitWorker>();
const answer = createFitDesk((fraction) => port.post({ kind: 'progress', fraction }));

port.onMessage((asked) => {
  const said = answer(asked);
  port.post(said, memoryOf(said));
});
