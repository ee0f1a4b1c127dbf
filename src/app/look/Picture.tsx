/** The footage at the playhead with its skeleton, filling whatever place it is given, and a line that says which frame it is. */
import { type ReactElement, useEffect, useRef } from 'react';
import { figure } from '../../charts/figures.ts';
import { paintWithPlayhead, repaintPlayhead } from '../state/playhead.ts';
import { useBook, useSession } from '../state/use.ts';
import { paintPicture } from './picture.ts';

/** Bones are drawn in proportion to the picture, within what stays readable. */
function bonePx(heightPx: number): number {
  return Math.max(2.5, Math.min(4.5, heightPx / 150));
}

export function Picture({ label }: { readonly label: string }): ReactElement {
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

  useEffect(() => {
    const element = box.current;
    if (element === null) return;
    const observer = new ResizeObserver(() => repaintPlayhead());
    observer.observe(element);
    const stop = paintWithPlayhead((at) => {
      if (box.current === null || canvas.current === null) return;
      const size = { width: box.current.clientWidth, height: box.current.clientHeight };
      if (size.width === 0 || size.height === 0) return;
      const style = getComputedStyle(box.current);
      const said = paintPicture(canvas.current, size, at, {
        ink: style.getPropertyValue('--bone'),
        edge: style.getPropertyValue('--picture-ground'),
        fontFamily: style.fontFamily,
        bonePx: bonePx(size.height),
      });
      if (words.current !== null) {
        words.current.textContent = said.words;
        words.current.hidden = said.words === '';
      }
      if (caption.current !== null) {
        caption.current.textContent =
          said.frame === undefined ? '' : `frame ${said.frame + 1} of ${said.frames} · ${figure(said.timeS, 3)} s in the take`;
      }
    });
    return () => {
      observer.disconnect();
      stop();
    };
  }, [footage, track, plan, mirror, red]);

  return (
    <figure className="picture">
      <div className="picture-box" ref={box}>
        <canvas ref={canvas} role="img" aria-label={label} />
        <p className="picture-words" ref={words} hidden />
      </div>
      <figcaption ref={caption} />
    </figure>
  );
}
