/** What a picture of the puppet is made from; who makes it (`screens/puppet`) knows the plan and the armature, this folder does not. */
import type { Box, FigurePose, FigureShape } from '../../charts/figure/figure.ts';
import type { Plumb } from '../../charts/figure/plumb.ts';
import type { Vec3 } from '../../numeric/vector3.ts';

/** The free end of a chain, whose way is drawn. */
export interface ChainEnd {
  readonly part: number;
  /** In the part's own axes. */
  readonly pointMm: Vec3;
}

/** Another pose of the same step, drawn as hatching with its own plumb line and with words, in place of the neighbouring steps. */
export interface OtherPose {
  readonly poseAt: (step: number) => FigurePose | null;
  readonly plumbAt: (step: number) => Plumb;
  /** What the hatched figure and the solid one are, in a word or two. */
  readonly words: string;
  readonly nowWords: string;
}

export interface PuppetScene {
  readonly shape: FigureShape;
  /** Holds the puppet at every step. */
  readonly box: Box;
  readonly stepCount: number;
  /** Steps count from 0; `null` where there is none. */
  readonly poseAt: (step: number) => FigurePose | null;
  readonly isUnsure: (step: number, part: number) => boolean;
  /** What to do with the joint of a part at this step, in words; `null` where it has no joint or does not move. */
  readonly moveWords: (step: number, part: number) => string | null;
  readonly ends: readonly ChainEnd[];
  /** The plumb line at a step, where it is to be drawn. */
  readonly plumbAt?: (step: number) => Plumb;
  /** Where given, neighbouring steps are not drawn: the other pose is, or nothing where it is `null`. */
  readonly other?: OtherPose | null;
}
