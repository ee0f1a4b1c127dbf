/** The sign of a kind of joint, as in the drawings. */
import type { ReactElement } from 'react';
import type { FigureJointKind } from '../../../charts/figure/figure.ts';
import { jointSymbol } from '../../../charts/figure/jointSymbol.ts';

export function KindSign({ kind }: { readonly kind: FigureJointKind }): ReactElement {
  return <svg className="kind-sign" viewBox="-10 -10 20 20" width="20" height="20" aria-hidden="true"><path d={jointSymbol(kind, 7)} /></svg>;
}
