/**
 * Everything that can be wrong with a clip, each with its sentence and what to do about it.
 */
import { NudgebookError } from '../errors.ts';
import { codecName } from './codecName.ts';

const CONVERT_TIP = 'Convert it to MP4 with H.264, or to WebM with VP9, and open that.';
const COPY_AGAIN_TIP = 'Copy the file from the camera or phone again; if it is damaged there too, record the take once more.';

export const failure = {
  fileMissing: (name: string, cause?: unknown): NudgebookError =>
    new NudgebookError('file-missing', `${name} cannot be read: nothing answers at its address.`, 'Check that the file is still there, then open it again.', cause),
  fileEmpty: (name: string): NudgebookError =>
    new NudgebookError('file-empty', `${name} is empty: it holds not a single byte.`, 'Copy the file from the camera or phone again.'),
  notAVideo: (name: string, cause?: unknown): NudgebookError =>
    new NudgebookError('not-a-video', `${name} is not a video that can be read here.`, 'Open an MP4, MOV, WebM or MKV file. The ending of the name alone does not make it one.', cause),
  noVideoTrack: (name: string): NudgebookError =>
    new NudgebookError('no-video-track', `${name} holds sound but no picture.`, 'Open the take itself, not its sound recording.'),
  noIndex: (name: string): NudgebookError =>
    new NudgebookError('truncated', `${name} breaks off before its index, so none of its frames can be found.`, COPY_AGAIN_TIP),
  noneWhole: (name: string): NudgebookError =>
    new NudgebookError('truncated', `${name} breaks off so early that not one of its frames is complete.`, COPY_AGAIN_TIP),
  cutShort: (name: string, there: number, promised: number): NudgebookError =>
    new NudgebookError('truncated', `${name} breaks off: its index promises ${promised} frames, ${there} are there.`, COPY_AGAIN_TIP),
  codecUnsupported: (name: string, codec: string | null): NudgebookError => {
    const named = codec === null ? 'a codec that is not known here' : codecName(codec);
    return new NudgebookError('codec-unsupported', `${name} is coded as ${named}, which this browser cannot decode.`, CONVERT_TIP);
  },
  decodeFailed: (name: string, atS: number, cause?: unknown): NudgebookError =>
    new NudgebookError('decode-failed', `${name} cannot be decoded from ${atS.toFixed(2)} s on: the picture data there is damaged.`, `${COPY_AGAIN_TIP} Converting it to MP4 with H.264 may save the rest.`, cause),
  noFrames: (name: string): NudgebookError =>
    new NudgebookError('no-frames', `${name} holds no frames.`, COPY_AGAIN_TIP),
  insecurePage: (): NudgebookError =>
    new NudgebookError('no-webcodecs', 'The browser decodes video only on a secure page, and this page is not one.', 'Open Nudgebook at http://localhost or over https.'),
  noWebCodecs: (): NudgebookError =>
    new NudgebookError('no-webcodecs', 'This browser cannot decode video frame by frame (it lacks WebCodecs).', 'Use a current Chromium, Chrome or Edge.'),
  cancelled: (): NudgebookError =>
    new NudgebookError('cancelled', 'Stopped, as asked.', 'Open the clip again whenever you like.'),
} as const;

/**
 * Makes sure that frames can be decoded at all here.
 *
 * @throws NudgebookError `no-webcodecs`
 */
export function requireWebCodecs(): void {
  if (typeof VideoDecoder !== 'undefined') return;
  throw globalThis.isSecureContext ? failure.noWebCodecs() : failure.insecurePage();
}
