/** Marks proposed where something happens: the kinds and the joints are chosen, what was found is counted, and one edit places them. */
import { type ReactElement, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { figure, jointWords } from '../../../../charts/figures.ts';
import { LIMB_WORDS } from '../../../../charts/moments/limbWords.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { placeMarks } from '../../../../timing/marks/marks.ts';
import { curveTurns } from '../../../../timing/moments/curveTurns.ts';
import type { MomentsOf } from '../../../../timing/moments/moments.ts';
import { jointsOf } from '../../../../timing/moments/moments.ts';
import { type FoundKind, type MarkProposal, proposeMarks } from '../../../../timing/moments/proposeMarks.ts';
import { NumberField } from '../../../fields/NumberField.tsx';
import { currentBook } from '../../../state/bookStore.ts';
import { say } from '../../../state/session.ts';
import { benchBase, editTiming } from '../../../state/timingEdits.ts';
import { useBook } from '../../../state/use.ts';
import { curvesOver } from '../jointCurves.ts';
import { proposalWishes } from './proposalWishes.ts';

const KINDS: readonly { readonly kind: FoundKind; readonly words: string }[] = [
  { kind: 'start', words: 'starts of moves' }, { kind: 'end', words: 'ends of moves' }, { kind: 'extreme', words: 'extremes of joints' },
];

function nameOf({ of, kind, turn, joins }: MarkProposal): string {
  if (turn !== null) return `${jointWords(turn.joint)} at ${figure(turn.angleDeg, 0)}°`;
  if (joins) return `${LIMB_WORDS[of]} goes over`;
  return `${LIMB_WORDS[of]} ${kind === 'start' ? 'starts' : 'stops'}`;
}

export function ProposePart({ plan, of }: { readonly plan: Plan; readonly of: MomentsOf }): ReactElement {
  const [open, setOpen] = useState(useBook((b) => b.timing.marks.length) === 0);
  return (
    <details className="snap-part" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Find moments worth a mark</summary>
      {open ? <Proposals plan={plan} of={of} /> : null}
    </details>
  );
}

/** Looked for only while they can be seen. */
function Proposals({ plan, of }: { readonly plan: Plan; readonly of: MomentsOf }): ReactElement {
  const { kinds, without, leastTurnDeg } = useStore(proposalWishes);
  const marks = useBook((b) => b.timing.marks);
  const [placed, setPlaced] = useState('');
  const own = useMemo(() => {
    const wanted = jointsOf(of);
    return curvesOver(plan).filter(({ curve }) => wanted.includes(curve.joint));
  }, [plan, of]);
  const turns = useMemo(() => own.filter(({ name }) => !without.includes(name)).flatMap(({ curve }) => curveTurns(curve)), [own, without]);
  const found = useMemo(() => {
    const base = benchBase();
    if (base === null || plan.stepCount < 2) return [];
    // two moments within a step cannot both be hit
    const stepS = (plan.sourceTimeS[plan.stepCount - 1]! - plan.sourceTimeS[0]!) / (plan.stepCount - 1);
    return proposeMarks(turns, plan.moments, { of, kinds, inS: base.inS, outS: base.outS, leastTurnDeg, leastApartS: stepS })
      .filter(({ sourceS }) => marks.every((mark) => Math.abs(mark.sourceS - sourceS) >= stepS));
  }, [plan, turns, of, kinds, leastTurnDeg, marks]);
  const count = (kind: FoundKind): number => found.filter((one) => one.kind === kind).length;
  const propose = (): void => {
    const before = currentBook().timing.marks.length;
    const used = Math.max(0, ...currentBook().timing.marks.map(({ id }) => Number(/^p(\d+)$/.exec(id)?.[1] ?? 0)));
    const done = editTiming((timing, context) => placeMarks(timing, context, found.map((one, k) => ({ id: `p${used + k + 1}`, sourceS: one.sourceS, kind: one.kind, name: nameOf(one) }))), { label: `marks proposed for the ${LIMB_WORDS[of]}` });
    if (!done) return;
    const made = currentBook().timing.marks.length - before;
    const words = `${made} ${made === 1 ? 'mark' : 'marks'} placed${made < found.length ? `; ${found.length - made} fall on an exposure that has one` : ''}.`;
    setPlaced(words);
    say(words);
  };
  const toggle = (kind: FoundKind): void => proposalWishes.setState({ kinds: KINDS.map((one) => one.kind).filter((one) => (one === kind) !== kinds.includes(one)) });
  const toggleJoint = (name: string): void => proposalWishes.setState({ without: without.includes(name) ? without.filter((one) => one !== name) : [...without, name] });
  return (
    <>
      <p className="hint">Of the {LIMB_WORDS[of]}, which is chosen above the rail; of several within one step the largest move counts.</p>
      <div className="propose-kinds">
        {KINDS.map(({ kind, words }) => (
          <label key={kind} className="check"><input type="checkbox" checked={kinds.includes(kind)} onChange={() => toggle(kind)} /><span>{words}{kinds.includes(kind) ? ` (${count(kind)})` : ''}</span></label>
        ))}
      </div>
      {kinds.includes('extreme') && own.length > 0 ? (
        <>
          <NumberField label="Extremes of turns from" unit="°" value={leastTurnDeg} min={0} max={180} step={5} decimals={0} widthCh={4} onCommit={(v) => v !== null && proposalWishes.setState({ leastTurnDeg: v })} />
          <details className="snap-part">
            <summary>Extremes of {own.filter(({ name }) => !without.includes(name)).length} of {own.length} joints</summary>
            <div className="snap-joints">
              {own.map(({ name }) => (
                <label key={name} className="check"><input type="checkbox" checked={!without.includes(name)} onChange={() => toggleJoint(name)} /><span>{jointWords(name)}</span></label>
              ))}
            </div>
          </details>
        </>
      ) : null}
      <div className="buttons">
        <button type="button" disabled={found.length === 0} onClick={propose}>{found.length === 0 ? 'Nothing new to mark' : `Mark ${found.length === 1 ? 'this one' : `these ${found.length}`}`}</button>
      </div>
      <p className="hint">{placed !== '' && found.length === 0 ? placed : 'They are placed where they fall now: nothing changes until a mark is moved.'}</p>
    </>
  );
}
