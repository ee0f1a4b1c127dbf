/** A joint of the figure as something that can be reached with Tab and moved with the arrow keys. */
import { type KeyboardEvent, type ReactElement, useEffect, useRef } from 'react';
import type { LandmarkName } from '../../../pose/landmarks.ts';
import { correctableWords } from '../../corrections/correctable.ts';
import { choose, nudgeChosen } from '../../state/correcting.ts';

/** What an arrow key moves a joint by, pixels of the frame; with Shift. */
const NUDGE_PX = 1;
const BIG_NUDGE_PX = 10;

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1],
};

export interface JointHandleProps {
  readonly name: LandmarkName;
  readonly chosen: boolean;
}

export function JointHandle({ name, chosen }: JointHandleProps): ReactElement {
  const button = useRef<HTMLButtonElement>(null);
  // A joint chosen by key is taken hold of, unless a person is at work in a field.
  useEffect(() => {
    const at = document.activeElement;
    if (chosen && (at === null || at === document.body || at.classList.contains('joint-handle'))) button.current?.focus({ preventScroll: true });
  }, [chosen]);

  const onKeyDown = (event: KeyboardEvent<HTMLButtonElement>): void => {
    const arrow = ARROWS[event.key];
    if (event.key === 'Escape') button.current?.blur();
    else if (arrow !== undefined && !event.ctrlKey && !event.metaKey && !event.altKey) {
      const px = event.shiftKey ? BIG_NUDGE_PX : NUDGE_PX;
      choose(name);
      nudgeChosen(arrow[0] * px, arrow[1] * px);
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <button
      ref={button}
      type="button"
      className="joint-handle"
      data-joint={name}
      aria-label={`${correctableWords(name)}: arrow keys move it`}
      aria-pressed={chosen}
      onFocus={() => choose(name, false)}
      onClick={() => choose(name)}
      onKeyDown={onKeyDown}
    />
  );
}
