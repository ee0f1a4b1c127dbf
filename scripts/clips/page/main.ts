// The page's side of the renderer: the command outside calls these by name.
import { clipNamed } from '../clips.ts';
import { encodeClip, encodeSequence } from './encode.ts';
import { makeStage, type Stage } from './stage.ts';

export interface ClipsPage {
  /** A PNG still as base64. */
  readonly still: (name: string, frame: number) => Promise<string>;
  /** The encoded clip as base64; progress goes to the console as "frame N". */
  readonly clip: (name: string) => Promise<string>;
  /** A picture file (base64) shown for so many frames, five a second, at most `widthPx` wide; the encoded clip as base64. */
  readonly ofPicture: (picture: string, frames: number, widthPx: number) => Promise<string>;
}

declare global {
  interface Window { clipsPage?: ClipsPage }
}

let open: { readonly name: string; readonly stage: Stage } | undefined;

function stageFor(name: string): Stage {
  if (open?.name === name) return open.stage;
  open?.stage.close();
  open = { name, stage: makeStage(clipNamed(name)) };
  return open.stage;
}

async function base64(blob: Blob): Promise<string> {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  let text = '';
  for (let i = 0; i < bytes.length; i += 32768) text += String.fromCharCode(...bytes.subarray(i, i + 32768));
  return btoa(text);
}

window.clipsPage = {
  still: async (name, frame) => {
    const stage = stageFor(name);
    stage.draw(frame);
    const blob = await new Promise<Blob | null>((done) => stage.canvas.toBlob(done, 'image/png'));
    if (blob === null) throw new Error('no picture');
    return base64(blob);
  },
  clip: async (name) => {
    const bytes = await encodeClip(clipNamed(name), stageFor(name), (frame) => console.log(`frame ${frame}`));
    return base64(new Blob([new Uint8Array(bytes)]));
  },
  ofPicture: async (picture, frames, widthPx) => {
    const bytes = Uint8Array.from(atob(picture), (c) => c.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes]));
    const canvas = document.createElement('canvas');
    // Even sides, as the codec wants them.
    canvas.width = 2 * Math.round(Math.min(widthPx, bitmap.width) / 2);
    canvas.height = 2 * Math.round((canvas.width * bitmap.height) / bitmap.width / 2);
    const draw = (): void => canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    return base64(new Blob([new Uint8Array(await encodeSequence({ canvas, frames, fps: 5, bitsPerSecond: 2_000_000, draw }))]));
  },
};
