/**
 * Poses clips from Node: serves the built app and the clip on the loopback interface, and drives `lab.html` in a browser without a window.
 */
import { basename } from 'node:path';
import { launchBrowser } from '../../scripts/browser/launch.ts';
import { buildApp } from '../../scripts/serve/build.ts';
import { serveApp } from '../../scripts/serve/serveApp.ts';
import { fromErrorData, NudgebookError } from '../errors.ts';
import type { ModelSize } from '../pose/track.ts';
import type { PoseAnswer, PoseRequest, PoseTick } from './lab.ts';

/** Evaluating in the page waits as long as the pose run takes. */
const NO_LIMIT_MS = 0;

/** A browser that poses one clip after another. */
export interface Posing {
  /**
   * @param clip path of the footage on this disk
   * @param onTick progress of the pose run, about ten times a second
   * @throws NudgebookError what the page found wrong with the clip
   */
  readonly pose: (clip: string, model: ModelSize, onTick: (tick: PoseTick) => void) => Promise<PoseAnswer>;
  readonly close: () => Promise<void>;
}

/**
 * Starts the browser; whoever asked closes it.
 *
 * @param say told one line when something takes a while before posing starts
 * @throws NudgebookError `no-browser`
 */
export async function openPosing(say: (line: string) => void): Promise<Posing> {
  await buildApp(say);
  const served = await serveApp({ host: '127.0.0.1', port: 0 });
  try {
    const browser = await launchBrowser();
    return {
      pose: async (clip, model, onTick) => {
        const page = await browser.newPage();
        try {
          page.setDefaultTimeout(NO_LIMIT_MS);
          let crash: Error | undefined;
          page.on('crash', () => { crash = new NudgebookError('internal', 'The browser ran out of memory or crashed.', 'Try the model "lite" or a shorter clip.'); });
          await page.exposeFunction('nudgebookTick', onTick);
          await page.goto(`${served.url}lab.html`);
          const request: PoseRequest = { url: served.offer(clip), name: basename(clip), model };
          await page.waitForFunction(() => window.nudgebookLab !== undefined);
          const answer = await page.evaluate((asked) => window.nudgebookLab!.pose(asked), request)
            .catch((error: unknown) => { throw crash ?? error; });
          if (!answer.ok) throw fromErrorData(answer.error);
          return answer.value;
        } finally {
          await page.close();
        }
      },
      close: async () => {
        await browser.close();
        await served.close();
      },
    };
  } catch (error) {
    await served.close();
    throw error;
  }
}

/**
 * Poses one clip.
 *
 * @param say see {@link openPosing}
 * @throws NudgebookError as {@link openPosing} and {@link Posing.pose}
 */
export async function poseInBrowser(
  clip: string,
  model: ModelSize,
  say: (line: string) => void,
  onTick: (tick: PoseTick) => void,
): Promise<PoseAnswer> {
  const posing = await openPosing(say);
  try {
    return await posing.pose(clip, model, onTick);
  } finally {
    await posing.close();
  }
}
