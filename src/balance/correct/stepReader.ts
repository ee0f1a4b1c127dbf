/** How the centre of mass of a step goes with each amount of a change, read off the puppet itself. */
import type { Balance } from '../balance.ts';
import type { ChangedStep, StepChanger } from './changedStep.ts';
import type { Amount } from './means.ts';

/** Amounts by which it is read off, degrees and millimetres: so little that to the other side it reads the same. */
const PROBE = 0.02;
/** A reading is good for changes that differ by less than this in every amount, degrees and millimetres. Our choice. */
const GOOD_FOR = 2;

/** A step with a change, and with a bit more of each amount. */
export interface StepReading {
  readonly change: Float64Array;
  readonly here: ChangedStep;
  readonly probed: readonly ChangedStep[];
  /** `[k·2]` millimetres along X and Z for a unit of each amount. */
  readonly ways: Float64Array;
}

export class StepReader {
  private readonly changer: StepChanger;
  private readonly amounts: readonly Amount[];
  private readonly massMm: Float64Array;
  private readonly first = new Map<number, StepReading>();
  private readonly last = new Map<number, StepReading>();
  private readonly still: Float64Array;

  constructor(changer: StepChanger, amounts: readonly Amount[], { massMm }: Balance) {
    this.changer = changer;
    this.amounts = amounts;
    this.massMm = massMm;
    this.still = new Float64Array(amounts.length);
  }

  here(step: number, change: Float64Array): ChangedStep {
    return this.changer.at(step, this.amounts, change);
  }

  /** Over the floor, mm: `[X, Z]` with a change, of the pose as it is set by hand, which stands a little beside the exact one. */
  massAt(step: number, { massX, massZ }: ChangedStep): readonly [number, number] {
    const { here } = this.unchanged(step);
    return [this.massMm[step * 3]! + massX - here.massX, this.massMm[step * 3 + 2]! + massZ - here.massZ];
  }

  /** A reading at a change, or near it. */
  near(step: number, change: Float64Array): StepReading {
    for (const reading of [this.last.get(step), this.unchanged(step)]) {
      if (reading !== undefined && reading.change.every((v, i) => Math.abs(v - change[i]!) < GOOD_FOR)) return reading;
    }
    const reading = this.read(step, change);
    this.last.set(step, reading);
    return reading;
  }

  private unchanged(step: number): StepReading {
    let reading = this.first.get(step);
    if (reading === undefined) {
      reading = this.read(step, this.still);
      this.first.set(step, reading);
    }
    return reading;
  }

  private read(step: number, change: Float64Array): StepReading {
    const here = this.here(step, change);
    const probed = this.amounts.map((_, i) => this.here(step, change.map((v, j) => (j === i ? v + PROBE : v))));
    const ways = Float64Array.from(probed.flatMap(({ massX, massZ }) => [(massX - here.massX) / PROBE, (massZ - here.massZ) / PROBE]));
    return { change: change.slice(), here, probed, ways };
  }

  /** How a number of the pose goes with a unit of each amount, by the same bits more. */
  slopes({ here, probed }: StepReading, of: (step: ChangedStep) => number): Float64Array {
    const now = of(here);
    return Float64Array.from(probed, (one) => (of(one) - now) / PROBE);
  }
}
