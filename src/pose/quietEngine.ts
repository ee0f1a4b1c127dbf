/**
 * Moves the engine's own log lines out of the way.
 *
 * It writes every note about its start to the console, some of them as errors ("INFO: Created TensorFlow Lite XNNPACK
 * delegate for CPU."), which hides real errors and fails tests that allow none. Notes and warnings go to `debug`;
 * its errors and everything that is not its own stay where they are.
 */

/** "INFO: …", or the engine's log prefix: I or W, month and day, time. */
const NOTE = /^(INFO: |[IW]\d{4} \d\d:\d\d:\d\d|Graph successfully started running)/;

/** The part of a console that the engine writes to. */
export type NoisyConsole = Pick<Console, 'log' | 'warn' | 'error' | 'debug'>;

/** Sends the engine's notes to `debug` from now on. */
export function quietEngine(to: NoisyConsole): void {
  for (const level of ['log', 'warn', 'error'] as const) {
    const said = to[level].bind(to);
    to[level] = (...words: unknown[]) => {
      if (typeof words[0] === 'string' && NOTE.test(words[0])) to.debug(...words);
      else said(...words);
    };
  }
}
