/**
 * The footage at the playhead with its skeleton. It fills whatever place it is given, or keeps the take's own shape and says
 * below which frame it is.
 */
import { type ReactElement, type ReactNode, useEffect, useRef } from 'react';
import { figure } from '../../charts/figures.ts';
import { paintWithPlayhead, repaintPlayhead } from '../state/playhead.ts';
import { useBook, useSession } from '../state/use.ts';
import { paintPicture, type PictureOver, type PictureSaid } from './picture.ts';

/** Bones are drawn in proportion to the picture, within what stays readable. */
function bonePx(heightPx: number): number {
  return Math.max(2.5, Math.min(4.5, heightPx / 150));
}

export interface PictureProps {
  readonly label: string;
  readonly fill?: boolean;
  /** Drawn over the skeleton; keep the same object while it draws the same. */
  readonly over?: PictureOver;
  /** Called after every painting, with what was painted; keep the same function likewise. */
  readonly onPainted?: (said: PictureSaid) => void;
  /** Laid over the picture. */
  readonly children?: ReactNode;
}

export function Picture({ label, fill = false, over, onPainted, children }: PictureProps): ReactElement {
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const words = useRef<HTMLParagraphElement>(null);
  const caption = useRef<HTMLElement>(null);
  // Whatever the picture is made from: a change of any of it paints again.
  const footage = useSession((s) => s.footage);
  const track = useSession((s) => s.track);
  const plan = useSession((s) => s.plan);
  const mirror = useBook((b) => b.settings.mirror);
  const red = useSession((s) => s.red);
  const shape = useBook((b) => (b.take === null ? 1 : b.take.widthPx / b.take.heightPx));

  useEffect(() => {
    const element = box.current;
    if (element === null) return;
    // Kept from the observer: asking in the redraw itself would make the browser lay the page out in the middle of it.
    let size = { width: element.clientWidth, height: element.clientHeight };
    const observer = new ResizeObserver(() => {
      size = { width: element.clientWidth, height: element.clientHeight };
      repaintPlayhead();
    });
    observer.observe(element);
    // Read once: asking the page for its style in every redraw would cost a layout.
    const style = getComputedStyle(element);
    const ink = style.getPropertyValue('--bone');
    const edge = style.getPropertyValue('--picture-ground');
    const { fontFamily } = style;
    const stop = paintWithPlayhead((at) => {
      if (canvas.current === null) return;
      if (size.width === 0 || size.height === 0) return;
      const said = paintPicture(canvas.current, size, at, { ink, edge, fontFamily, bonePx: bonePx(size.height) }, over);
      onPainted?.(said);
      if (words.current !== null) {
        words.current.textContent = said.words;
        words.current.hidden = said.words === '';
      }
      if (caption.current !== null) {
        caption.current.textContent =
          said.frame === undefined ? '' : `frame ${said.frame + 1} of ${said.frames}, ${figure(said.timeS, 3)} s`;
      }
    });
    return () => {
      observer.disconnect();
      stop();
    };
  }, [red, over, onPainted]);

  useEffect(repaintPlayhead, [footage, track, plan, mirror, shape]);

  return (
    <figure className="picture">
      <div className="picture-box" ref={box} style={fill ? undefined : { aspectRatio: shape, flex: 'none' }}>
        <canvas ref={canvas} role="img" aria-label={label} />
        {children}
        <p className="picture-words" ref={words} hidden />
      </div>
      {fill ? null : <figcaption ref={caption} />}
    </figure>
  );
}
