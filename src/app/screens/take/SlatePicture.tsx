/** The two poses of the slate as a picture to copy: our own drawing. */
import type { ReactElement } from 'react';

function Figure({ x, bent, words }: { readonly x: number; readonly bent: boolean; readonly words: string }): ReactElement {
  // From the shoulder: hanging a little away from the body; or the upper arm level to the side and the forearm straight up.
  const arm = (side: 1 | -1): string => (bent ? `M0,34 l${side * 14},0 l${side * 24},0 l0,-24` : `M0,34 l${side * 14},0 l${side * 7},27 l${side * 7},26`);
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
    <svg className="slate-picture" viewBox="0 0 240 184" role="img" aria-label="First stand with arms and legs straight, the arms hanging a little away from the body; then lift the upper arms level to the sides, elbows at a right angle, forearms straight up">
      <Figure x={62} bent={false} words="all straight" />
      <Figure x={178} bent words="elbows square" />
    </svg>
  );
}
