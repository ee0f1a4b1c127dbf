/** A mark as a grip that is dragged to another row, or moved by the arrow keys; the timing follows while it moves. */
import { type CSSProperties, type KeyboardEvent, type PointerEvent, type ReactElement, useEffect, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { HELD_KEY } from '../../../../book/history.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { exposureAt, lockMark, moveMark, removeMark } from '../../../../timing/marks/marks.ts';
import type { TimeMark } from '../../../../timing/timingSettings.ts';
import { useBenchRows } from '../../../ladder/benchContext.ts';
import { useRowDrag } from '../../../ladder/useRowDrag.ts';
import { bookStore, currentBook, undoBook } from '../../../state/bookStore.ts';
import { goToStep } from '../../../state/commands.ts';
import { paceView } from '../../../state/paceView.ts';
import { editTiming } from '../../../state/timingEdits.ts';
import { useSetting } from '../../../state/use.ts';
import { filmAtY, rowOfFilm } from './filmRows.ts';
import type { GripPlace } from './gripPlaces.ts';
import { markLabel, markWords } from './markWords.ts';

export interface MarkGripProps {
  readonly mark: TimeMark;
  readonly plan: Plan;
  readonly place: GripPlace;
  readonly leftPx: number;
}

export function MarkGrip({ mark, plan, place, leftPx }: MarkGripProps): ReactElement {
  const { rows } = useBenchRows();
  const rate = useSetting('rate');
  const picked = useStore(paceView, (s) => s.picked === mark.id);
  const held = useRef<{ readonly key: string; readonly offsetPx: number } | null>(null);
  /** While it is dragged: where it was taken from. */
  const [from, setFrom] = useState<{ readonly y: number; readonly exposure: number } | null>(null);
  const exposure = exposureAt(mark.filmS, rate);
  const row = rowOfFilm(plan, mark.filmS);

  const letGo = (): void => {
    held.current = null;
    setFrom(null);
  };
  const takeHold = useRowDrag({
    move: (yPx) => {
      const present = currentBook().timing.marks.find(({ id }) => id === mark.id);
      if (held.current === null || present === undefined) return;
      const { key, offsetPx } = held.current;
      const filmS = filmAtY(plan, rows.rowPx, yPx - offsetPx);
      if (exposureAt(present.filmS, rate) === exposureAt(filmS, rate)) return;
      editTiming((timing, context) => moveMark(timing, context, mark.id, filmS), { key, label: `${markLabel(mark)} to exposure ${exposureAt(filmS, rate)}` });
    },
    end: letGo,
    cancel: () => {
      // Only what this drag did: another edit may have come between.
      if (bookStore.getState().history.joinable?.key === held.current?.key) undoBook();
      letGo();
    },
  });
  const onPointerDown = (event: PointerEvent<HTMLButtonElement>): void => {
    event.stopPropagation();
    paceView.setState({ picked: mark.id, panel: 'retime' });
    if (event.button !== 0 || mark.locked) return;
    const rowsTop = event.currentTarget.closest('[data-rows]')!.getBoundingClientRect().top;
    held.current = { key: `${HELD_KEY}mark ${mark.id} ${event.timeStamp}`, offsetPx: event.clientY - rowsTop - place.markY };
    setFrom({ y: place.markY, exposure });
    takeHold(event);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLButtonElement>): void => {
    const by = event.shiftKey ? 10 : 1;
    const move = (exposures: number): void => {
      const filmS = mark.filmS + exposures / rate;
      editTiming((timing, context) => moveMark(timing, context, mark.id, filmS), { key: `mark ${mark.id}`, label: `${markLabel(mark)} to exposure ${exposureAt(filmS, rate)}` });
    };
    if (event.key === 'ArrowUp') move(-by);
    else if (event.key === 'ArrowDown') move(by);
    else if (event.key === 'Delete' || event.key === 'Backspace') editTiming((timing) => removeMark(timing, mark.id), { label: `${markLabel(mark)} removed` });
    else if (event.key.toLowerCase() === 'l') editTiming((timing) => lockMark(timing, mark.id, !mark.locked), { label: `${markLabel(mark)} ${mark.locked ? 'unlocked' : 'locked'}` });
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const grip = useRef<HTMLButtonElement>(null);
  const wanted = useStore(paceView, (s) => s.wanted === mark.id);
  useEffect(() => {
    if (!wanted) return;
    paceView.setState({ wanted: null });
    grip.current?.focus();
    goToStep(Math.round(row));
  }, [wanted, row]);
  // Moved by keys it stays in sight; under a pointer it is in sight already.
  useEffect(() => {
    if (document.activeElement === grip.current && held.current === null) grip.current?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [exposure]);
  const thin = place.thin && !picked;
  return (
    <>
      {from === null || from.exposure === exposure ? null : <span className="grip-from" style={{ top: from.y }}>was {from.exposure}</span>}
      <button
        ref={grip}
        type="button"
        data-mark={mark.id}
        className={`grip${thin ? ' grip-thin' : ''}${picked ? ' grip-picked' : ''}${mark.locked ? ' grip-locked' : ''}`}
        style={{ left: leftPx, top: place.gripY, '--above': `${place.abovePx}px`, '--below': `${place.belowPx}px` } as CSSProperties}
        title={mark.locked ? 'Locked (L unlocks it)' : 'Drag to another exposure; arrow keys move it by one, with Shift by ten; L locks, Delete removes'}
        aria-label={`${markWords(mark)} ${exposure}: mark at exposure ${exposure}${mark.locked ? ', locked' : ''}`}
        onPointerDown={onPointerDown}
        onKeyDown={onKeyDown}
        onFocus={() => paceView.setState({ picked: mark.id })}
        onClick={() => goToStep(Math.round(row))}
      >
        {thin ? null : <><span className="grip-name">{markWords(mark)}</span>{' '}<b>{exposure}</b></>}
        {mark.locked ? <span aria-hidden="true">▪</span> : null}
      </button>
    </>
  );
}
