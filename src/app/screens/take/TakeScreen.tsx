/** Take: the footage with its skeleton, what is known of it, and what part of it is used. */
import type { ReactElement } from 'react';
import { Bench } from '../../ladder/Bench.tsx';
import { changesBench } from '../../state/session.ts';
import { useBook, useSession } from '../../state/use.ts';
import { EmptyTake } from './EmptyTake.tsx';
import { FootageGone } from './FootageGone.tsx';
import { NotPosed } from './NotPosed.tsx';
import { TakeHead } from './TakeHead.tsx';
import { TakePicture } from './TakePicture.tsx';
import { TakeSide } from './TakeSide.tsx';

export function TakeScreen(): ReactElement {
  const take = useBook((b) => b.take);
  const changing = useSession((s) => changesBench(s.job));
  const footage = useSession((s) => s.footage);
  const track = useSession((s) => s.track);
  return (
    <main className="screen screen-take">
      <Bench across={false} head={<TakeHead />}>
        <div className="take">
          {take === null ? (
            <EmptyTake />
          ) : (
            <>
              <div className="take-picture">
                {footage === null && !changing ? <FootageGone /> : null}
                {track === null && !changing && footage !== null ? <NotPosed /> : null}
                <TakePicture />
              </div>
              <TakeSide />
            </>
          )}
        </div>
      </Bench>
    </main>
  );
}
