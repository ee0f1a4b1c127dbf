/** The way to the 3D stage: its code is fetched when the first picture of a puppet is wanted, and never before. */
import type { Stage } from './stage.ts';

/**
 * @param onLost called when the graphics processor takes the picture away
 * @throws NudgebookError `no-webgl`
 */
export async function loadStage(canvas: HTMLCanvasElement, onLost: () => void): Promise<Stage> {
  const { createStage } = await import('./stage.ts');
  return createStage(canvas, onLost);
}
