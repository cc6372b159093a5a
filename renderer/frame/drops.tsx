/** Files dropped anywhere on the window. In: a drag from outside; out: its first file, opened or brought in. */
import { useEffect, useState } from 'react';
import { texts } from '../ui/index.ts';
import { useFrame } from './context.ts';

export function FileDrops() {
  const { flows } = useFrame();
  const [over, setOver] = useState(false);
  useEffect(() => {
    const brings = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;
    const show = (event: DragEvent): void => {
      if (!brings(event)) return;
      event.preventDefault();
      setOver(true);
    };
    const hide = (event: DragEvent): void => {
      if (event.relatedTarget === null) setOver(false);
    };
    const take = async (event: DragEvent): Promise<void> => {
      if (!brings(event)) return;
      event.preventDefault();
      setOver(false);
      const file = event.dataTransfer?.files[0];
      if (file) await flows.openFile({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) });
    };
    const drop = (event: DragEvent): void => void take(event);
    window.addEventListener('dragover', show);
    window.addEventListener('dragleave', hide);
    window.addEventListener('drop', drop);
    return () => {
      window.removeEventListener('dragover', show);
      window.removeEventListener('dragleave', hide);
      window.removeEventListener('drop', drop);
    };
  }, [flows]);
  return over ? <div className="drop-hint">{texts.frame.home.drop}</div> : null;
}
