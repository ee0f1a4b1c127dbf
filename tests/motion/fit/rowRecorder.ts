/** Gathers residual rows as plain dense ones, so that derivatives can be held against differences and solvers against dense algebra. */
import { FRAME_SIZE, BONE_COUNT } from '../../../src/motion/fit/layout.ts';
import { NormalEquations } from '../../../src/motion/fit/normalEquations.ts';
import { lossWeight, type Loss } from '../../../src/motion/fit/robust.ts';

export interface Row {
  readonly r: number;
  /** Weight in the linear step. */
  readonly weight: number;
  /** Derivatives by [frames' unknowns | slacks | the take's unknowns]. */
  readonly by: ReadonlyMap<number, number>;
}

export class RowRecorder extends NormalEquations {
  readonly rows: Row[] = [];

  override emit(r: number, weight: number, loss: Loss = 'square', scale = 1): void {
    const by = new Map<number, number>();
    const main = this.frames * FRAME_SIZE;
    const window = 3 * FRAME_SIZE;
    for (let i = 0; i < this.touchedCount; i++) by.set((this.frame - 2) * FRAME_SIZE + this.touched[i]!, this.scratch[this.touched[i]!]!);
    for (let i = 0; i < this.slackCount; i++) {
      const column = this.slacksTouched[i]!;
      by.set(main + this.frame * BONE_COUNT + column - window, this.scratch[column]!);
    }
    for (let i = 0; i < this.globalCount; i++) {
      const column = this.globalsTouched[i]!;
      by.set(main + this.frames * BONE_COUNT + column - window - BONE_COUNT, this.scratch[column]!);
    }
    this.rows.push({ r, weight: weight * lossWeight(loss, scale, r), by });
    super.emit(r, weight, loss, scale);
  }
}
