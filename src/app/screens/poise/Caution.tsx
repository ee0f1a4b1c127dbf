/** The caution that stands wherever a tie-down or a rig is spoken of. */
import type { ReactElement, ReactNode } from 'react';

export function Caution({ children }: { readonly children?: ReactNode }): ReactElement {
  return (
    <p className="hint caution">
      What a tie-down must hold is an estimate for a puppet that nobody touches: a hand that sets a joint pushes far harder. Take one that holds several times as much. Rigging over people or hot lamps follows local codes and is the work of a qualified rigger.
      {children}
    </p>
  );
}
