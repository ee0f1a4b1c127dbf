/** A clip or a book may be dropped anywhere on the window. */
import { type ReactElement, useEffect, useState } from 'react';
import { openAnyFile } from '../state/files.ts';
import { attempt } from '../state/problems.ts';

export function DropPlace(): ReactElement | null {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const hasFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;
    const onOver = (event: DragEvent): void => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      setOver(true);
    };
    const onLeave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setOver(false);
    };
    const onDrop = (event: DragEvent): void => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      setOver(false);
      const file = event.dataTransfer?.files[0];
      if (file !== undefined) attempt(() => openAnyFile(file));
    };
    window.addEventListener('dragover', onOver);
    window.addEventListener('dragleave', onLeave);
    window.addEventListener('drop', onDrop);
    return () => {
      window.removeEventListener('dragover', onOver);
      window.removeEventListener('dragleave', onLeave);
      window.removeEventListener('drop', onDrop);
    };
  }, []);
  return over ? <div className="drop-place" aria-hidden="true"><p>Drop a clip or a book</p></div> : null;
}
