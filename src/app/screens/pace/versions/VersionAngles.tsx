/** A joint of one's choice in both timings. */
import { type ReactElement, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { mostMoving } from '../../../../charts/amount.ts';
import { jointWords } from '../../../../charts/figures.ts';
import { drawVersionAngles } from '../../../../charts/versionAngles.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { angleOverFilm, type ComparedTimings } from '../../../../timing/compareTimings.ts';
import { Select } from '../../../fields/Select.tsx';
import type { NamedCurve } from '../jointCurves.ts';

const SIZE = { widthPx: 340, heightPx: 300 };

export interface VersionAnglesProps {
  readonly plan: Plan;
  readonly curves: readonly NamedCurve[];
  readonly both: Pick<ComparedTimings, 'firstCurve' | 'secondCurve'>;
  readonly names: readonly [string, string];
}

export function VersionAngles({ plan, curves, both, names }: VersionAnglesProps): ReactElement {
  const svg = useRef<SVGSVGElement>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  const name = curves.some((one) => one.name === chosen) ? chosen : (mostMoving(plan, 1)[0] ?? curves[0]?.name ?? null);
  const joint = curves.find((one) => one.name === name);
  const angles = useMemo(() => (joint === undefined ? null : [both.firstCurve, both.secondCurve].map((curve) => ({ filmS: curve.filmS, angleDeg: angleOverFilm(curve, joint.curve) })) as [Drawn, Drawn]), [joint, both]);
  useLayoutEffect(() => {
    if (svg.current !== null && angles !== null) drawVersionAngles(svg.current, SIZE, angles[0], angles[1]);
  }, [angles]);
  if (joint === undefined) return <p className="hint">No joint’s curve is there yet: the plan is being made.</p>;
  return (
    <>
      <Select label="Joint" value={joint.name} options={curves.map((one) => ({ value: one.name, words: jointWords(one.name) }))} onChoose={setChosen} />
      <svg ref={svg} className="timing-curves" width={SIZE.widthPx} height={SIZE.heightPx} role="img" aria-label={`Angle of the ${jointWords(joint.name)} over the film: ${names[0]} as a whole line, ${names[1]} dashed`} />
    </>
  );
}

interface Drawn {
  readonly filmS: Float64Array;
  readonly angleDeg: Float64Array;
}
