/** Puppet: the puppet's own body, and what a hand does to it at each step. */
import type { ReactElement } from 'react';
import { Bench } from '../../ladder/Bench.tsx';
import { useSession } from '../../state/use.ts';
import { NoPlan } from '../sheet/NoPlan.tsx';

export function PuppetScreen(): ReactElement {
  const plan = useSession((s) => s.plan);
  return (
    <main className="screen screen-puppet">
      <h1 className="unseen">Puppet</h1>
      <Bench across={false} head={null}>
        {plan === null ? <NoPlan /> : null}
      </Bench>
    </main>
  );
}
