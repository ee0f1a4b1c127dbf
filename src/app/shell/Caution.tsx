/** What can hurt, said once where the acting begins and once in the help. */
import type { ReactElement } from 'react';

export function Caution(): ReactElement {
  return (
    <p className="caution">
      <strong>Take care.</strong> Before acting out a fall or a pose on one leg, clear the floor and have someone to catch you and something
      to hold. Lamps get hot and cut armature wire is sharp. Where local rules or a qualified rigger say otherwise, they come first.
    </p>
  );
}
