/**
 * The one error type a person may get to read.
 *
 * Every failure that can be met with bad input is one of a closed list of codes, with a sentence that
 * says what is wrong and a tip that says what to do. Code that reacts to a failure looks at the code,
 * never at the words.
 */
export type ErrorCode =
  | 'bad-argument'
  | 'file-missing'
  | 'file-empty'
  | 'not-a-video'
  | 'truncated'
  | 'no-video-track'
  | 'codec-unsupported'
  | 'decode-failed'
  | 'no-frames'
  | 'no-person'
  | 'no-webgl'
  | 'no-webcodecs'
  | 'no-browser'
  | 'model-missing'
  | 'bad-track'
  | 'bad-armature'
  | 'bad-settings'
  | 'bad-timing'
  | 'bad-corrections'
  | 'bad-book'
  | 'wrong-footage'
  | 'storage-failed'
  | 'cancelled'
  | 'internal';

export class NudgebookError extends Error {
  readonly code: ErrorCode;
  /** What the person can do about it; shown beside the sentence wherever the sentence is shown. */
  readonly tip: string;

  /**
   * @param code one of the closed list, for code that reacts
   * @param sentence what is wrong, in plain words, with the offending value where there is one
   * @param tip the next thing to try
   * @param cause the error underneath, kept for the console
   */
  constructor(code: ErrorCode, sentence: string, tip: string, cause?: unknown) {
    super(sentence, cause === undefined ? undefined : { cause });
    this.name = 'NudgebookError';
    this.code = code;
    this.tip = tip;
  }
}

/** Plain data of an error, so that it can cross a worker boundary and come back as the same error. */
export interface ErrorData {
  readonly code: ErrorCode;
  readonly sentence: string;
  readonly tip: string;
}

/** Turns anything thrown into plain data; what is not ours becomes `internal` with its own message kept. */
export function toErrorData(thrown: unknown): ErrorData {
  if (thrown instanceof NudgebookError) return { code: thrown.code, sentence: thrown.message, tip: thrown.tip };
  const said = thrown instanceof Error ? thrown.message : String(thrown);
  return {
    code: 'internal',
    sentence: `Something went wrong inside Nudgebook: ${said}`,
    tip: 'Your book is kept. Reload the page and try again; if it happens again, report it with this sentence.',
  };
}

/** The inverse of {@link toErrorData}. */
export function fromErrorData(data: ErrorData): NudgebookError {
  return new NudgebookError(data.code, data.sentence, data.tip);
}
