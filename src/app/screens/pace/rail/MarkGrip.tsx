/** A mark as a grip that is dragged to another row, or moved by the arrow keys; the timing follows while it moves. */
import { type CSSProperties, type KeyboardEvent, type PointerEvent, type ReactElement, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { HELD_KEY } from '../../../../book/history.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { exposureAt, lockMark, moveMark, removeMark } from '../../../../timing/marks/marks.ts';
import type { TimeMark } from '../../../../timing/timingSettings.ts';
import { useBenchRows } from '../../../ladder/benchContext.ts';
import { currentBook } from '../../../state/bookStore.ts';
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
  const drag = useRef<{ readonly key: string; readonly offsetPx: number } | null>(null);
  /** While it is dragged: where it was taken from. */
  const [from, setFrom] = useState<{ readonly y: number; readonly exposure: number } | null>(null);
  const exposure = exposureAt(mark.filmS, rate);
  const row = rowOfFilm(plan, mark.filmS);

  const rowsTop = (element: Element): number => element.closest('[data-rows]')!.getBoundingClientRect().top;
  const onPointerDown = (event: PointerEvent<HTMLButtonElement>): void => {
    event.stopPropagation();
    paceView.setState({ picked: mark.id, panel: 'retime' });
    if (event.button !== 0 || mark.locked) return;
    drag.current = { key: `${HELD_KEY}mark ${mark.id} ${event.timeStamp}`, offsetPx: event.clientY - rowsTop(event.currentTarget) - place.markY };
    event.currentTarget.setPointerCapture(event.pointerId);
    setFrom({ y: place.markY, exposure });
  };
  const onPointerMove = (event: PointerEvent<HTMLButtonElement>): void => {
    if (drag.current === null || !event.currentTarget.hasPointerCapture(event.pointerId)) return;
    event.stopPropagation();
    const { key, offsetPx } = drag.current;
    const filmS = filmAtY(plan, rows.rowPx, event.clientY - rowsTop(event.currentTarget) - offsetPx);
    const present = currentBook().timing.marks.find(({ id }) => id === mark.id);
    if (present === undefined || exposureAt(present.filmS, rate) === exposureAt(filmS, rate)) return;
    editTiming((timing, context) => moveMark(timing, context, mark.id, filmS), { key, label: `${markLabel(mark)} to exposure ${exposureAt(filmS, rate)}` });
  };
  const onPointerUp = (): void => {
    drag.current = null;
    setFrom(null);
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
  const thin = place.thin && !picked;
  return (
    <>
      {from === null || from.exposure === exposure ? null : <span className="grip-from" style={{ top: from.y }}>was {from.exposure}</span>}
      <button
        type="button"
        className={`grip${thin ? ' grip-thin' : ''}${picked ? ' grip-picked' : ''}${mark.locked ? ' grip-locked' : ''}`}
        style={{ left: leftPx, top: place.gripY, '--above': `${place.abovePx}px`, '--below': `${place.belowPx}px` } as CSSProperties}
        title={mark.locked ? 'Locked (L unlocks it)' : 'Drag to another exposure; arrow keys move it by one, with Shift by ten; L locks, Delete removes'}
        aria-label={`${markWords(mark)} ${exposure}: mark at exposure ${exposure}${mark.locked ? ', locked' : ''}`}
        onPointerDown={onPointerDown}
        onPointerMove={onPointerMove}
        onPointerUp={onPointerUp}
        onPointerCancel={onPointerUp}
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
