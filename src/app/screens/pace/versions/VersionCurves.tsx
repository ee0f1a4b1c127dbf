/** Two timings as curves: down the page the film, across it the take. */
import { type ReactElement, useLayoutEffect, useRef } from 'react';
import { drawTimingCurves, type TimingCurve } from '../../../../charts/timingCurves.ts';

const SIZE = { widthPx: 320, heightPx: 300 };

export interface VersionCurvesProps {
  readonly first: TimingCurve;
  readonly second: TimingCurve;
  readonly names: readonly [string, string];
}

export function VersionCurves({ first, second, names }: VersionCurvesProps): ReactElement {
  const svg = useRef<SVGSVGElement>(null);
  useLayoutEffect(() => {
    if (svg.current !== null) drawTimingCurves(svg.current, SIZE, first, second, names);
  }, [first, second, names]);
  return <svg ref={svg} className="timing-curves" width={SIZE.widthPx} height={SIZE.heightPx} role="img" aria-label={`Which moment of the take stands at which second of the film: ${names[0]} as a whole line, ${names[1]} dashed; the table above has the figures`} />;
}
