import { expect, it } from 'vitest';
import { drawInTurn } from '../../src/app/look/inTurn.ts';

const aTask = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));

it('draws one piece after the other, the latest of each owner, and nothing that was called off', async () => {
  const drawn: string[] = [];
  const [ladder, curve, bars] = [{}, {}, {}];
  drawInTurn(ladder, () => drawn.push('old ladder'));
  drawInTurn(curve, () => drawn.push('curve'));
  drawInTurn(ladder, () => drawn.push('ladder'));
  drawInTurn(bars, () => drawn.push('bars'))();
  expect(drawn).toEqual([]);
  while (drawn.length < 2) await aTask();
  await aTask();
  expect(drawn).toEqual(['ladder', 'curve']);
});
