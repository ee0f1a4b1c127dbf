/** The stage of one canvas, for as long as the canvas is there; where there can be none, why the puppet is drawn flat. */
import { type RefObject, useEffect, useRef, useState } from 'react';
import type { NudgebookError } from '../../errors.ts';
import { loadStage } from './loadStage.ts';
import type { Stage } from './stage.ts';

const NO_WEBGL = 'This browser draws nothing in three dimensions (no WebGL), so the puppet is drawn flat.';

export interface StageOfCanvas {
  readonly canvas: RefObject<HTMLCanvasElement | null>;
  readonly stage: RefObject<Stage | null>;
  readonly kind: 'loading' | 'deep' | 'flat';
  /** A sentence while it is flat; else empty. */
  readonly why: string;
}

export function useStage(): StageOfCanvas {
  const canvas = useRef<HTMLCanvasElement>(null);
  const stage = useRef<Stage | null>(null);
  const [kind, setKind] = useState<StageOfCanvas['kind']>('loading');
  const [why, setWhy] = useState('');
  useEffect(() => {
    if (canvas.current === null) return undefined;
    let gone = false;
    const goFlat = (words: string): void => {
      stage.current = null;
      if (gone) return;
      setWhy(words);
      setKind('flat');
    };
    loadStage(canvas.current, () => goFlat('The graphics processor took the 3D picture away, so the puppet is drawn flat.')).then(
      (made) => {
        if (gone) made.dispose();
        else {
          stage.current = made;
          setKind('deep');
        }
      },
      (thrown: NudgebookError | Error) => {
        if (!('code' in thrown)) console.error(thrown);
        goFlat('code' in thrown ? NO_WEBGL : 'The 3D picture could not be loaded, so the puppet is drawn flat.');
      },
    );
    return () => {
      gone = true;
      stage.current?.dispose();
      stage.current = null;
    };
  }, []);
  return { canvas, stage, kind, why };
}
