/**
 * Gathers residuals and their derivatives into the normal equations of the fit, one row at a time.
 *
 * A residual says of which unknowns it depends (`point`, `direction`, `global`, …) and is then closed with `emit`.
 * The matrix has a block band over time (28 unknowns a frame), a border (the take's unknowns) and, apart, 8 slacks a frame that
 * meet only their own frame and the border; {@link NormalEquations.solve} removes them frame by frame before the band is factored.
 */
import { inverseDiagonal, solveBordered } from './bandedCholesky.ts';
import type { Figure } from './figure.ts';
import {
  BONE_COUNT, DIRECTION_AT, FRAME_SIZE, HIP_AT, LENGTH_OF_BONE, LOG_LENGTH_AT, POINT_COUNT, REACH, ROOT_AT, SHOULDER_AT, SPINE_AT,
} from './layout.ts';
import { lossCost, lossWeight, type Loss } from './robust.ts';

const WINDOW = 3 * FRAME_SIZE;
const SLACK_FROM = WINDOW;
const GLOBAL_FROM = WINDOW + BONE_COUNT;
/** Share of a diagonal entry below which damping does not fall, so that an unknown nothing speaks of stays put. */
const LEAST_DIAGONAL = 1e-6;

export class NormalEquations {
  readonly frames: number;
  readonly globals: number;
  readonly band: Float64Array;
  readonly border: Float64Array;
  readonly corner: Float64Array;
  readonly slackSquare: Float64Array;
  readonly slackMain: Float64Array;
  readonly slackBorder: Float64Array;
  readonly gradient: Float64Array;
  readonly slackGradient: Float64Array;
  readonly edgeGradient: Float64Array;
  /** Steps found by {@link solve}. */
  readonly mainStep: Float64Array;
  readonly slackStep: Float64Array;
  readonly edgeStep: Float64Array;
  /** Sum of all costs since {@link clear}, and of the family now open. */
  cost = 0;
  /** Whether derivatives are wanted; while false every call but `emit` is free. */
  linear = true;
  private figure: Figure | undefined;
  private lengths = new Float64Array(4);
  protected frame = 0;
  protected readonly scratch: Float64Array;
  protected readonly marked: Uint8Array;
  /** Columns of the open row: the frames' unknowns, slacks, the take's unknowns. */
  protected readonly touched: Int32Array;
  protected touchedCount = 0;
  protected readonly slacksTouched = new Int32Array(BONE_COUNT);
  protected slackCount = 0;
  protected readonly globalsTouched: Int32Array;
  protected globalCount = 0;
  private readonly work: { band: Float64Array; border: Float64Array; corner: Float64Array };
  private readonly reduced: Float64Array;

  /** @param globals G, unknowns of the take; 0 to hold them fixed (their derivatives are then dropped) */
  constructor(frames: number, globals: number) {
    const n = frames * FRAME_SIZE;
    this.frames = frames;
    this.globals = globals;
    this.band = new Float64Array(n * WINDOW);
    this.border = new Float64Array(n * globals);
    this.corner = new Float64Array(globals * globals);
    this.slackSquare = new Float64Array(frames * BONE_COUNT * BONE_COUNT);
    this.slackMain = new Float64Array(frames * BONE_COUNT * FRAME_SIZE);
    this.slackBorder = new Float64Array(frames * BONE_COUNT * globals);
    this.gradient = new Float64Array(n);
    this.slackGradient = new Float64Array(frames * BONE_COUNT);
    this.edgeGradient = new Float64Array(globals);
    this.mainStep = new Float64Array(n);
    this.slackStep = new Float64Array(frames * BONE_COUNT);
    this.edgeStep = new Float64Array(globals);
    this.scratch = new Float64Array(GLOBAL_FROM + globals);
    this.marked = new Uint8Array(GLOBAL_FROM + globals);
    this.touched = new Int32Array(WINDOW);
    this.globalsTouched = new Int32Array(globals);
    this.work = { band: new Float64Array(n * WINDOW), border: new Float64Array(n * globals), corner: new Float64Array(globals * globals) };
    this.reduced = new Float64Array(BONE_COUNT * (FRAME_SIZE + globals + 1));
  }

  /** Empties everything and takes the figure about which the next rows are linearised. */
  clear(figure: Figure, linear: boolean): void {
    this.figure = figure;
    this.linear = linear;
    this.cost = 0;
    for (let i = 0; i < 4; i++) this.lengths[i] = Math.exp(figure.globals[LOG_LENGTH_AT + i]!);
    if (!linear) return;
    for (const part of [this.band, this.border, this.corner, this.slackSquare, this.slackMain, this.slackBorder,
      this.gradient, this.slackGradient, this.edgeGradient]) part.fill(0);
  }

  /** Opens a row whose latest frame is `frame`; it may reach back to frame - 2. */
  open(frame: number): void {
    this.frame = frame;
  }

  private touch(column: number, value: number): void {
    if (this.marked[column] === 0) {
      this.marked[column] = 1;
      if (column < WINDOW) this.touched[this.touchedCount++] = column;
      else if (column < GLOBAL_FROM) this.slacksTouched[this.slackCount++] = column;
      else this.globalsTouched[this.globalCount++] = column;
      this.scratch[column] = value;
    } else this.scratch[column] = this.scratch[column]! + value;
  }

  /** Derivative by one of the first twelve unknowns (root, hip, spine, shoulder) of a frame. */
  free(frame: number, variable: number, value: number): void {
    if (!this.linear) return;
    this.touch((frame - this.frame + 2) * FRAME_SIZE + variable, value);
  }

  /** Derivative by a free vector (start index ROOT_AT, HIP_AT, SPINE_AT or SHOULDER_AT) of a frame. */
  vector(frame: number, at: number, x: number, y: number, z: number): void {
    if (!this.linear) return;
    const column = (frame - this.frame + 2) * FRAME_SIZE + at;
    this.touch(column, x);
    this.touch(column + 1, y);
    this.touch(column + 2, z);
  }

  /** Derivative by a bone's direction, given as a gradient in space. */
  direction(frame: number, bone: number, x: number, y: number, z: number): void {
    if (!this.linear) return;
    const b = this.figure!.tangents;
    const at = (frame * BONE_COUNT + bone) * 6;
    const column = (frame - this.frame + 2) * FRAME_SIZE + DIRECTION_AT + 2 * bone;
    this.touch(column, x * b[at]! + y * b[at + 1]! + z * b[at + 2]!);
    this.touch(column + 1, x * b[at + 3]! + y * b[at + 4]! + z * b[at + 5]!);
  }

  /** Derivative by a slack of the open frame. */
  slack(bone: number, value: number): void {
    if (this.linear) this.touch(SLACK_FROM + bone, value);
  }

  /** Derivative by an unknown of the take. */
  global(index: number, value: number): void {
    if (this.linear && index < this.globals) this.touch(GLOBAL_FROM + index, value);
  }

  /**
   * Derivative by a joint's place, carried on to everything that moves it.
   *
   * @param seen whether the place meant is the one with slack (open frame only) or the one with constant lengths
   */
  point(frame: number, point: number, x: number, y: number, z: number, seen: boolean): void {
    if (!this.linear) return;
    const reach = REACH[point]!;
    this.vector(frame, ROOT_AT, x, y, z);
    if (reach.hip !== 0) this.vector(frame, HIP_AT, reach.hip * x, reach.hip * y, reach.hip * z);
    if (reach.spine !== 0) this.vector(frame, SPINE_AT, x, y, z);
    if (reach.shoulder !== 0) this.vector(frame, SHOULDER_AT, reach.shoulder * x, reach.shoulder * y, reach.shoulder * z);
    const { directions, slack } = this.figure!;
    for (const bone of reach.bones) {
      const kind = LENGTH_OF_BONE[bone]!;
      const i = frame * BONE_COUNT + bone;
      const length = seen ? this.lengths[kind]! * Math.exp(slack[i]!) : this.lengths[kind]!;
      this.direction(frame, bone, length * x, length * y, length * z);
      const along = length * (x * directions[i * 3]! + y * directions[i * 3 + 1]! + z * directions[i * 3 + 2]!);
      if (seen) this.slack(bone, along);
      this.global(LOG_LENGTH_AT + kind, along);
    }
  }

  /**
   * Closes the row: residual r, its weight (of r²) and the loss it passes through.
   * Cost counts weight·ρ(r); the step uses weight·ρ'(r)/2r.
   */
  emit(r: number, weight: number, loss: Loss = 'square', scale = 1): void {
    this.cost += weight * lossCost(loss, scale, r);
    if (!this.linear) return;
    const w = weight * lossWeight(loss, scale, r);
    const { touched, touchedCount, slacksTouched, slackCount, globalsTouched, globalCount, scratch, marked, frame, globals } = this;
    const { band, border, corner, gradient, slackMain, slackSquare, slackBorder } = this;
    const n = this.frames * FRAME_SIZE;
    const base = (frame - 2) * FRAME_SIZE;
    for (let p = 0; p < touchedCount; p++) {
      const a = touched[p]!;
      const wa = w * scratch[a]!;
      marked[a] = 0;
      gradient[base + a] = gradient[base + a]! - wa * r;
      for (let q = 0; q <= p; q++) {
        const b = touched[q]!;
        const high = a > b ? a : b;
        const block = (high / FRAME_SIZE) | 0;
        const at = (base + high) * WINDOW + (2 - block) * FRAME_SIZE + a + b - high;
        band[at] = band[at]! + wa * scratch[b]!;
      }
    }
    for (let p = 0; p < slackCount; p++) {
      const a = slacksTouched[p]!;
      const wa = w * scratch[a]!;
      const row = frame * BONE_COUNT + (a - SLACK_FROM);
      marked[a] = 0;
      this.slackGradient[row] = this.slackGradient[row]! - wa * r;
      const main = row * FRAME_SIZE - 2 * FRAME_SIZE;
      for (let q = 0; q < touchedCount; q++) {
        const b = touched[q]!;
        slackMain[main + b] = slackMain[main + b]! + wa * scratch[b]!;
      }
      for (let q = 0; q < slackCount; q++) {
        const b = slacksTouched[q]!;
        const at = row * BONE_COUNT + b - SLACK_FROM;
        slackSquare[at] = slackSquare[at]! + wa * scratch[b]!;
      }
      for (let q = 0; q < globalCount; q++) {
        const b = globalsTouched[q]!;
        const at = row * globals + b - GLOBAL_FROM;
        slackBorder[at] = slackBorder[at]! + wa * scratch[b]!;
      }
    }
    for (let p = 0; p < globalCount; p++) {
      const a = globalsTouched[p]!;
      const wa = w * scratch[a]!;
      const g = a - GLOBAL_FROM;
      marked[a] = 0;
      this.edgeGradient[g] = this.edgeGradient[g]! - wa * r;
      const main = g * n + base;
      for (let q = 0; q < touchedCount; q++) {
        const b = touched[q]!;
        border[main + b] = border[main + b]! + wa * scratch[b]!;
      }
      for (let q = 0; q < globalCount; q++) {
        const at = g * globals + globalsTouched[q]! - GLOBAL_FROM;
        corner[at] = corner[at]! + wa * scratch[globalsTouched[q]!]!;
      }
    }
    this.touchedCount = 0;
    this.slackCount = 0;
    this.globalCount = 0;
  }

  /**
   * Solves for the step with every diagonal raised by the share `damping` of itself (Levenberg-Marquardt in Marquardt's scaling).
   * The gathered matrix is kept, so that another damping can be tried. Writes mainStep, slackStep, edgeStep.
   *
   * @returns false where the damped matrix is not positive definite
   */
  solve(damping: number): boolean {
    const { frames, globals, work, mainStep, slackStep, edgeStep } = this;
    const n = frames * FRAME_SIZE;
    work.band.set(this.band);
    work.border.set(this.border);
    work.corner.set(this.corner);
    mainStep.set(this.gradient);
    edgeStep.set(this.edgeGradient);
    let largest = 0;
    for (let i = 0; i < n; i++) largest = Math.max(largest, this.band[diagonalAt(i)]!);
    const least = LEAST_DIAGONAL * largest / Math.max(1, n);
    for (let i = 0; i < n; i++) {
      const at = diagonalAt(i);
      work.band[at] = work.band[at]! * (1 + damping) + least;
    }
    for (let g = 0; g < globals; g++) work.corner[g * globals + g] = work.corner[g * globals + g]! * (1 + damping);
    for (let t = 0; t < frames; t++) this.removeSlack(t, damping);
    if (!solveBordered(work.band, frames, FRAME_SIZE, work.border, work.corner, mainStep, edgeStep)) return false;
    for (let t = 0; t < frames; t++) this.restoreSlack(t, damping, slackStep);
    return true;
  }

  /** One sigma of an unknown of the take, all others free: of the matrix that {@link solve} last factored (damping 0 for the undamped one). */
  edgeSigma(index: number): number {
    return Math.sqrt(inverseDiagonal(this.work.corner, this.globals, index));
  }

  /** Factors the slack's own 8 × 8 of a frame into `reduced`-independent scratch and returns it. */
  private factorSlack(t: number, damping: number): Float64Array {
    const l = SLACK_FACTOR;
    const from = t * BONE_COUNT * BONE_COUNT;
    for (let i = 0; i < BONE_COUNT; i++) {
      for (let j = 0; j <= i; j++) {
        let sum = this.slackSquare[from + i * BONE_COUNT + j]!;
        if (i === j) sum *= 1 + damping;
        for (let k = 0; k < j; k++) sum -= l[i * BONE_COUNT + k]! * l[j * BONE_COUNT + k]!;
        l[i * BONE_COUNT + j] = i === j ? 1 / Math.sqrt(sum) : sum * l[j * BONE_COUNT + j]!;
      }
    }
    return l;
  }

  private removeSlack(t: number, damping: number): void {
    const { globals, work, mainStep, edgeStep, reduced } = this;
    const l = this.factorSlack(t, damping);
    const width = FRAME_SIZE + globals + 1;
    // reduced = L⁻¹·[slack×main | slack×border | gradient]
    for (let i = 0; i < BONE_COUNT; i++) {
      const row = t * BONE_COUNT + i;
      const to = i * width;
      for (let c = 0; c < FRAME_SIZE; c++) reduced[to + c] = this.slackMain[row * FRAME_SIZE + c]!;
      for (let c = 0; c < globals; c++) reduced[to + FRAME_SIZE + c] = this.slackBorder[row * globals + c]!;
      reduced[to + width - 1] = this.slackGradient[row]!;
      for (let k = 0; k < i; k++) {
        const by = l[i * BONE_COUNT + k]!;
        if (by === 0) continue;
        for (let c = 0; c < width; c++) reduced[to + c] = reduced[to + c]! - by * reduced[k * width + c]!;
      }
      const by = l[i * BONE_COUNT + i]!;
      for (let c = 0; c < width; c++) reduced[to + c] = reduced[to + c]! * by;
    }
    const n = this.frames * FRAME_SIZE;
    const first = t * FRAME_SIZE;
    for (let k = 0; k < BONE_COUNT; k++) {
      const from = k * width;
      const g0 = reduced[from + width - 1]!;
      for (let a = 0; a < FRAME_SIZE; a++) {
        const v = reduced[from + a]!;
        if (v === 0) continue;
        const at = (first + a) * WINDOW + 2 * FRAME_SIZE;
        for (let b = 0; b <= a; b++) work.band[at + b] = work.band[at + b]! - v * reduced[from + b]!;
        mainStep[first + a] = mainStep[first + a]! - v * g0;
      }
      for (let g = 0; g < globals; g++) {
        const v = reduced[from + FRAME_SIZE + g]!;
        if (v === 0) continue;
        for (let a = 0; a < FRAME_SIZE; a++) work.border[g * n + first + a] = work.border[g * n + first + a]! - v * reduced[from + a]!;
        for (let h = 0; h <= g; h++) work.corner[g * globals + h] = work.corner[g * globals + h]! - v * reduced[from + FRAME_SIZE + h]!;
        edgeStep[g] = edgeStep[g]! - v * g0;
      }
    }
  }

  private restoreSlack(t: number, damping: number, out: Float64Array): void {
    const { globals, mainStep, edgeStep } = this;
    const l = this.factorSlack(t, damping);
    const at = t * BONE_COUNT;
    for (let i = 0; i < BONE_COUNT; i++) {
      const row = at + i;
      let sum = this.slackGradient[row]!;
      for (let c = 0; c < FRAME_SIZE; c++) sum -= this.slackMain[row * FRAME_SIZE + c]! * mainStep[t * FRAME_SIZE + c]!;
      for (let g = 0; g < globals; g++) sum -= this.slackBorder[row * globals + g]! * edgeStep[g]!;
      for (let k = 0; k < i; k++) sum -= l[i * BONE_COUNT + k]! * out[at + k]!;
      out[row] = sum * l[i * BONE_COUNT + i]!;
    }
    for (let i = BONE_COUNT - 1; i >= 0; i--) {
      let sum = out[at + i]!;
      for (let k = i + 1; k < BONE_COUNT; k++) sum -= l[k * BONE_COUNT + i]! * out[at + k]!;
      out[at + i] = sum * l[i * BONE_COUNT + i]!;
    }
  }
}

const SLACK_FACTOR = new Float64Array(BONE_COUNT * BONE_COUNT);
/** Joints of the figure in one frame, for loops over `points`. */
export const POINT_STRIDE = POINT_COUNT * 3;

function diagonalAt(i: number): number {
  return i * WINDOW + 2 * FRAME_SIZE + (i % FRAME_SIZE);
}
