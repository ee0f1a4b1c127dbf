/** Jumps and falls: time aloft against ballistic time, and the way of the centre of mass against the parabola of free fall. */
import { type ReactElement, useEffect, useRef, useState } from 'react';
import { drawFlightArc, flightArc, nearestFlight } from '../../../charts/poise/flightArc.ts';
import { figure, stepsWords } from '../../../charts/figures.ts';
import type { Plan } from '../../../plan/plan.ts';
import { completeArmature } from '../../../puppet/completeArmature.ts';
import { GRAVITY_M_S2 } from '../../../puppet/timeScale.ts';
import { goToStep } from '../../state/commands.ts';
import { paintWithPlayhead, playhead, repaintPlayhead } from '../../state/playhead.ts';
import { useArmature } from '../../state/puppetEdits.ts';
import { useBook } from '../../state/use.ts';
import { isJudged, NotJudged } from './NotJudged.tsx';

const HEIGHT_PX = 250;
const READS_WORDS = { 'in time': 'in time', floats: 'floats: it is longer in the air than free fall', drops: 'drops: it is shorter in the air than free fall' } as const;

export function AirPanel({ plan }: { readonly plan: Plan }): ReactElement {
  const { flights } = plan.balance;
  if (flights.length === 0) {
    return (
      <section className="panel" aria-label="In the air">
        {isJudged(plan) ? <p className="hint">Nothing leaves the floor in this plan, as far as that can be told.</p> : <NotJudged plan={plan} />}
        <p className="hint">A jump or a fall is a while in which nothing touches, with a step that touches before and after it. Where one is missing, say under Touches which foot does not stand.</p>
      </section>
    );
  }
  return (
    <section className="panel" aria-label="In the air">
      <FlightChart plan={plan} />
      <table className="keys flights">
        <caption>In the air</caption>
        <thead><tr><th scope="col">what</th><th scope="col">steps</th><th scope="col">aloft, s</th><th scope="col">free fall, s</th><th scope="col">off its arc, mm</th></tr></thead>
        <tbody>
          {flights.map(({ kind, fromStep, toStep, aloftS, aloftErrorS, ballisticS, reads, offMm }) => (
            <tr key={fromStep}>
              <td>{kind}, {reads}</td>
              <td><button type="button" className="small" onClick={() => goToStep(fromStep)}>{stepsWords(fromStep, toStep)}</button></td>
              <td>{figure(aloftS, 2)} ± {figure(aloftErrorS, 2)}</td>
              <td>{figure(ballisticS, 2)}</td>
              <td>{figure(offMm, 1)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="hint">A figure that floats wants fewer exposures in the air, or a smaller rise; one that drops wants more. It falls as a body of the size that it reads as would; that size is set on the Puppet screen.</p>
      <p className="hint caution">In the air it hangs on a rig. Rigging over people or hot lamps follows local codes and is the work of a qualified rigger. Whoever acts out a jump or a fall needs a clear, soft floor and somebody beside them.</p>
    </section>
  );
}

/** The flight at the playhead, or the one nearest to it. */
function FlightChart({ plan }: { readonly plan: Plan }): ReactElement {
  const { flights, massMm } = plan.balance;
  const { heightMm } = completeArmature(useArmature());
  const apparentHeightM = useBook((b) => b.puppet.apparentHeightM);
  const readsM = apparentHeightM ?? plan.performerHeightM;
  const box = useRef<HTMLDivElement>(null);
  const svg = useRef<SVGSVGElement>(null);
  const [which, setWhich] = useState(() => nearestFlight(flights, playhead.getState().step));
  const flight = flights[Math.min(which, flights.length - 1)]!;
  useEffect(() => {
    const element = box.current;
    if (element === null) return undefined;
    const observer = new ResizeObserver(repaintPlayhead);
    observer.observe(element);
    const stop = paintWithPlayhead(({ step }) => {
      const near = nearestFlight(flights, step);
      if (flights[near] !== flight) setWhich(near);
      const widthPx = element.clientWidth;
      if (svg.current === null || widthPx < 1) return;
      svg.current.setAttribute('width', String(widthPx));
      const arc = flightArc({ flight, massMm, filmTimeS: plan.filmTimeS, gravityMmS2: (GRAVITY_M_S2 * heightMm) / readsM, widthPx, heightPx: HEIGHT_PX });
      drawFlightArc(svg.current, arc, step, widthPx, HEIGHT_PX);
    });
    return () => {
      observer.disconnect();
      stop();
    };
  }, [plan, flights, flight, massMm, heightMm, readsM]);
  return (
    <figure className="flight-chart">
      <figcaption>
        <h2>{flight.kind === 'jump' ? 'Jump' : 'Fall'}, steps {flight.fromStep + 1} to {flight.toStep + 1}</h2>
        <p>{figure(flight.aloftS, 2)} ± {figure(flight.aloftErrorS, 2)} s in the air, {figure(flight.ballisticS, 2)} s in free fall: {READS_WORDS[flight.reads]}.</p>
      </figcaption>
      <div ref={box}>
        <svg ref={svg} height={HEIGHT_PX} role="img" aria-label={`Height of the centre of mass from step ${flight.fromStep} to step ${flight.toStep + 2}, millimetres over the floor, and the parabola of free fall; farthest apart ${figure(flight.offMm, 1)} mm`} />
      </div>
      <p className="hint">
        <span className="legend"><svg width="30" height="12" aria-hidden="true"><path className="arc-own" d="M0,6h30" /><path className="arc-air" d="M12,6a3,3 0 1,0 6,0a3,3 0 1,0 -6,0" /></svg> centre of mass; a square where something touches</span>
        {' '}
        <span className="legend"><svg width="30" height="12" aria-hidden="true"><path className="arc-fall" d="M0,6h30" /></svg> free fall of a {figure(heightMm, 0)} mm puppet that reads as {figure(readsM, 2)} m</span>
      </p>
    </figure>
  );
}
