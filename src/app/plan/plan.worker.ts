/** The worker of the plan: angles and increments of a long take are tens of milliseconds that the page must not stand still for. */
import { workerPort } from '../../footage/workerPort.ts';
import { memoryOf } from '../worker/memoryOf.ts';
import { createPlanDesk } from './planDesk.ts';
import type { FromPlanWorker, ToPlanWorker } from './planProtocol.ts';

const port = workerPort<ToPlanWorker, FromPlanWorker>();
const answer = createPlanDesk();

port.onMessage((asked) => {
  const said = answer(asked);
  port.post(said, memoryOf(said));
});
