/** Nothing is on the bench yet: what to do, and the buttons for it. */
import type { ReactElement } from 'react';
import { BUNDLED_CLIPS, DEMO_CLIP } from '../../media/bundledClips.ts';
import { openBundled } from '../../media/takes.ts';
import { Key } from '../../fields/Key.tsx';
import { Caution } from '../../shell/Caution.tsx';
import { EarlierBooks } from '../../shell/EarlierBooks.tsx';
import { runCommand } from '../../state/commands.ts';
import { attempt } from '../../state/problems.ts';
import { SlatePicture } from './SlatePicture.tsx';

export function EmptyTake(): ReactElement {
  return (
    <div className="empty">
      <h2>Nothing on the bench yet.</h2>
      <p className="lead">
        Act the motion out in front of a camera, the whole body in the picture, and open the clip here. You get back how far each
        joint of the puppet moves from one step to the next.
      </p>
      <div className="buttons">
        <button type="button" className="main lamp" onClick={() => runCommand('openFile')}>Open a clip <Key of="openFile" /></button>
        <button type="button" className="main" onClick={() => runCommand('openDemo')}>Open Marla’s take <Key of="openDemo" /></button>
      </div>
      <p className="hint">MP4, MOV, WebM or MKV; or drop the file anywhere on this window. It never leaves this computer.</p>
      <section className="before">
        <SlatePicture />
        <div>
          <h3>Before you act: a second of each, if you like</h3>
          <p className="hint">Stand with arms and legs straight, then bend both elbows to a right angle. The fit then knows how long the limbs are and where straight is. Film the whole body, with the camera level and square to it.</p>
        </div>
      </section>
      <section className="others">
        <h3>Other clips to try</h3>
        <ul>
          {BUNDLED_CLIPS.filter((clip) => clip.name !== DEMO_CLIP).map((clip) => (
            <li key={clip.name}>
              <button type="button" onClick={() => attempt(() => openBundled(clip.name))}>{clip.title}</button>
              <span>{clip.about}</span>
            </li>
          ))}
        </ul>
      </section>
      <EarlierBooks />
      <Caution />
    </div>
  );
}
