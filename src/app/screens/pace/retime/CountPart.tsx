/** How long the plan is, in everything that is counted: time code where the rate has one, feet where a gauge is set. */
import type { ReactElement } from 'react';
import { figure } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { feetWords } from '../../../../timing/counts/filmFeet.ts';
import { timecodeKind, timecodeOf } from '../../../../timing/counts/timecode.ts';
import { FILM_GAUGES, type FilmGauge } from '../../../../timing/timingSettings.ts';
import { Choice } from '../../../fields/Choice.tsx';
import { editTiming } from '../../../state/timingEdits.ts';
import { useBook } from '../../../state/use.ts';

const OFF = 'off';

export function CountPart({ plan }: { readonly plan: Plan }): ReactElement {
  const gauge = useBook((b) => b.timing.gauge);
  const kind = timecodeKind(plan.rate);
  return (
    <div className="count-part">
      <dl className="facts">
        <div><dt>length</dt><dd>{plan.stepCount} steps, {plan.exposureCount} exposures, {figure(plan.exposureCount / plan.rate, 2)} s</dd></div>
        <div><dt>time code</dt><dd>{kind === null ? `none at ${figure(plan.rate, 3)} a second` : `${timecodeOf(plan.exposureCount, kind)}${kind.drop ? ' (drop-frame)' : ''}`}</dd></div>
        {gauge === null ? null : <div><dt>film</dt><dd>{feetWords(plan.exposureCount, gauge)} feet + frames of {gauge}</dd></div>}
      </dl>
      <Choice<string>
        label="Count film in feet"
        value={gauge ?? OFF}
        options={[OFF, ...FILM_GAUGES].map((value) => ({ value, words: value }))}
        onChoose={(value) => editTiming((timing) => ({ ...timing, gauge: value === OFF ? null : (value as FilmGauge) }), { label: `film gauge ${value}` })}
      />
    </div>
  );
}
