/** What one camera could not tell: spans without anybody, and each joint's unsure spans with the reason and what would settle it. */
import { type ReactElement, useEffect, useMemo, useRef, useState } from 'react';
import { figure, jointWords } from '../../../charts/figures.ts';
import type { Plan } from '../../../plan/plan.ts';
import { settledBy, unsureSpans, type UnsureSpan } from '../../../motion/trust/unsureSpans.ts';
import { CORRECTABLE, type Correctable } from '../../corrections/correctable.ts';
import { Key } from '../../fields/Key.tsx';
import { goToStep, runCommand } from '../../state/commands.ts';
import { choose } from '../../state/correcting.ts';
import { paintWithPlayhead, playhead } from '../../state/playhead.ts';
import { useSession } from '../../state/use.ts';
import { type Gap, gapsOf } from './gapsOf.ts';
import { goToTime } from '../../state/shownFrame.ts';
import { spanWords } from './spanWords.ts';

/** A long take may have hundreds; so many stand in the page, and the key goes through all of them. */
const SHOWN = 60;

/** The unsure spans of joints that can be seen, in order of time. */
export function seenSpans(plan: Plan): readonly UnsureSpan[] {
  return unsureSpans(plan.unsure, plan.joints.length)
    .filter(({ joint }) => plan.joints[joint]?.observable === true)
    .sort((a, b) => a.from - b.from || a.joint - b.joint);
}

/** The largest error within a span, degrees; NaN where none is known. */
export function worstErrorDeg(plan: Plan, { joint, from, to }: UnsureSpan): number {
  let worst = Number.NaN;
  for (let s = from; s <= to; s += 1) {
    const error = plan.errorDeg[s * plan.joints.length + joint] ?? Number.NaN;
    if (!(worst >= error)) worst = Number.isFinite(error) ? error : worst;
  }
  return worst;
}

export function UnsurePart(): ReactElement {
  const plan = useSession((s) => s.plan);
  const track = useSession((s) => s.track);
  const spans = useMemo(() => (plan === null ? [] : seenSpans(plan)), [plan]);
  const gaps = useMemo(() => (plan === null || track === null ? [] : gapsOf(track, plan)), [plan, track]);
  const [step, setStep] = useState(() => playhead.getState().step);
  useEffect(() => paintWithPlayhead((at) => setStep(at.step)), []);
  // Around the playhead: a long take has more than anybody reads.
  const firstHere = spans.findIndex(({ to }) => to >= step);
  const from = Math.max(0, Math.min(spans.length - SHOWN, (firstHere < 0 ? spans.length : firstHere) - SHOWN / 4));
  const shown = spans.slice(from, from + SHOWN);
  if (plan === null) return <p className="hint">Known once there are steps.</p>;
  return (
    <>
      {gaps.length === 0 ? null : <Gaps gaps={gaps} />}
      <section className="part" aria-label="Unsure spans">
        <div className="part-row">
          <h2>Unsure <span className="hint">{spans.length} spans</span></h2>
          <span className="part-buttons">
            <button type="button" disabled={spans.length === 0} onClick={() => runCommand('formerUnsure')}>before <Key of="formerUnsure" /></button>
            <button type="button" disabled={spans.length === 0} onClick={() => runCommand('nextUnsure')}>next <Key of="nextUnsure" /></button>
          </span>
        </div>
        <p className="hint">{spans.length === 0 ? 'Nothing in these steps speaks against the angles.' : 'Each angle is still the best guess there is; hatched wherever it is shown. ± is how far two in three true angles lie at most.'}</p>
        <ul className="doubts">
          {shown.map((span) => <Doubt key={`${span.joint} ${span.from}`} plan={plan} span={span} here={span.from <= step && step <= span.to} />)}
        </ul>
        {spans.length > shown.length ? <p className="hint">{spans.length - shown.length} more before or after; {'“'}next{'”'} goes through all of them.</p> : null}
      </section>
    </>
  );
}

function Doubt({ plan, span, here }: { readonly plan: Plan; readonly span: UnsureSpan; readonly here: boolean }): ReactElement {
  const item = useRef<HTMLLIElement>(null);
  useEffect(() => {
    // Where the list stands under the picture, scrolling to it would take the picture away.
    const side = item.current?.closest('.take-side');
    if (here && side instanceof Element && side.scrollHeight > side.clientHeight) item.current?.scrollIntoView({ block: 'nearest' });
  }, [here]);
  const joint = plan.joints[span.joint];
  const worst = worstErrorDeg(plan, span);
  const source = joint?.source ?? null;
  const go = (): void => {
    goToStep(span.from);
    if (source !== null && (CORRECTABLE as readonly string[]).includes(source)) choose(source as Correctable, false);
  };
  const steps = span.from === span.to ? `step ${span.from + 1}` : `steps ${span.from + 1}–${span.to + 1}`;
  return (
    <li ref={item} data-here={here}>
      <button type="button" aria-current={here} onClick={go}>
        <strong>{jointWords(joint?.name ?? '')}</strong>
        <span>{steps}</span>
        <span>{Number.isFinite(worst) ? `±${figure(worst, 0)}°` : ''}</span>
      </button>
      <p>{span.reasons.map(({ because }) => because).join('; ')}.</p>
      <p className="hint">{settledBy(span.reasons)}</p>
    </li>
  );
}

function Gaps({ gaps }: { readonly gaps: readonly Gap[] }): ReactElement {
  return (
    <section className="part" aria-label="Spans in which nobody was found">
      <h2>Nobody found <span className="hint">{gaps.length} {gaps.length === 1 ? 'span' : 'spans'}</span></h2>
      <ul className="spans">
        {gaps.map((gap) => (
          <li key={gap.fromS}>
            <button type="button" className="span-go" onClick={() => goToTime(gap.fromS)}>{spanWords(gap)}</button>
            <span>{gap.open ? 'too long to bridge: left open, its steps have no angles' : 'short: bridged from the frames on either side'}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
