/** From where the puppet is looked at, and what is drawn beside it. */
import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import { nameOfView, type ViewName } from '../../../charts/figure/view.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Key } from '../../fields/Key.tsx';
import { puppetView } from '../../puppet3d/puppetView.ts';
import type { CommandName } from '../../state/commandNames.ts';
import { runCommand } from '../../state/commands.ts';

const VIEW_COMMANDS: Readonly<Record<ViewName, readonly [string, CommandName]>> = {
  front: ['Front', 'viewFront'], side: ['Side', 'viewSide'], top: ['Top', 'viewTop'], turned: ['Turned', 'viewTurned'],
};

export function ViewButtons(): ReactElement {
  const name = useStore(puppetView, (s) => nameOfView(s.view));
  const ghosts = useStore(puppetView, (s) => s.ghosts);
  const labels = useStore(puppetView, (s) => s.labels);
  return (
    <div className="view-buttons">
      <Choice
        label="Seen from"
        value={name}
        options={(Object.keys(VIEW_COMMANDS) as ViewName[]).map((value) => ({ value, words: <>{VIEW_COMMANDS[value][0]} <Key of={VIEW_COMMANDS[value][1]} /></> }))}
        onChoose={(value) => runCommand(VIEW_COMMANDS[value][1])}
      />
      <div className="field">
        <span className="field-label">Go round</span>
        <span className="choice-row">
          <button type="button" title="Go round to the left (←)" aria-label="Go round to the left" onClick={() => runCommand('orbitLeft')}>←</button>
          <button type="button" title="Go round to the right (→)" aria-label="Go round to the right" onClick={() => runCommand('orbitRight')}>→</button>
          <button type="button" title="Higher up (Shift+↑)" aria-label="Look from higher up" onClick={() => runCommand('orbitUp')}>↑</button>
          <button type="button" title="Lower down (Shift+↓)" aria-label="Look from lower down" onClick={() => runCommand('orbitDown')}>↓</button>
        </span>
      </div>
      <div className="field">
        <span className="field-label">Draw as well</span>
        <span className="choice-row">
          <button type="button" aria-pressed={ghosts} onClick={() => runCommand('toggleGhosts')}>Before and after <Key of="toggleGhosts" /></button>
          <button type="button" aria-pressed={labels} onClick={() => runCommand('toggleLabels')}>Labels <Key of="toggleLabels" /></button>
        </span>
      </div>
    </div>
  );
}
