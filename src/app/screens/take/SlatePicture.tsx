/** The two poses of the slate as a picture to copy: our own drawing. */
import type { ReactElement } from 'react';

function Figure({ x, bent, words }: { readonly x: number; readonly bent: boolean; readonly words: string }): ReactElement {
  // From mid-shoulder: upper arms out and 40° down; forearms straight on, or turned up by a right angle.
  const arm = (side: 1 | -1): string => (bent ? `M0,34 l${side * 25},21 l${side * 17},-20` : `M0,34 l${side * 25},21 l${side * 22},18`);
  return (
    <g transform={`translate(${x} 6)`}>
      <circle cx="0" cy="14" r="10" />
      <path d={`M0,24 V84 M0,84 L-9,150 M0,84 L9,150 ${arm(1)} ${arm(-1)}`} />
      <text x="0" y="172">{words}</text>
    </g>
  );
}

export function SlatePicture(): ReactElement {
  return (
    <svg className="slate-picture" viewBox="0 0 240 184" role="img" aria-label="First stand with arms and legs straight, the arms a little out to the sides; then bend both elbows to a right angle, forearms up">
      <Figure x={62} bent={false} words="all straight" />
      <Figure x={178} bent words="elbows square" />
    </svg>
  );
}
