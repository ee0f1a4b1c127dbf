/**
 * Opens and poses a clip from the disk in the built app, the way the command line does it: the app is served
 * together with the one file, and the page without a window is asked.
 */
import { basename } from 'node:path';
import { serveApp } from '../../../scripts/serve/serveApp.ts';
import type { FactsData, PoseAnswer, PoseRequest } from '../../../src/cli/lab.ts';
import { fromErrorData } from '../../../src/errors.ts';
import { type OpenedPage, openPage } from '../harness.ts';

/** Serves a clip beside the app, opens the page, and takes both down afterwards. */
export async function withClip<T>(file: string, use: (opened: OpenedPage, url: string) => Promise<T>): Promise<T> {
  const served = await serveApp({ host: '127.0.0.1', port: 0 });
  try {
    const opened = await openPage(new URL('lab.html', served.url).href);
    try {
      await opened.page.waitForFunction(() => window.nudgebookLab !== undefined);
      return await use(opened, served.offer(file));
    } finally {
      await opened.close();
    }
  } finally {
    await served.close();
  }
}

/**
 * Reads a clip's index.
 *
 * @throws NudgebookError as the page gave it
 */
export function openInApp(file: string): Promise<FactsData> {
  return withClip(file, async ({ page }, url) => {
    const answer = await page.evaluate(([at, name]) => window.nudgebookLab!.openClip(at, name), [url, basename(file)] as const);
    if (!answer.ok) throw fromErrorData(answer.error);
    return answer.value;
  });
}

/**
 * Poses a clip.
 *
 * @throws NudgebookError as the page gave it
 */
export function poseInApp(file: string, how: Pick<PoseRequest, 'model' | 'workerCount'>): Promise<PoseAnswer> {
  return withClip(file, async ({ page }, url) => {
    const answer = await page.evaluate((request) => window.nudgebookLab!.pose(request), { url, name: basename(file), ...how });
    if (!answer.ok) throw fromErrorData(answer.error);
    return answer.value;
  });
}
