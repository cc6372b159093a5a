/** Files dropped anywhere on the window. In: a drag from outside; out: its first file, opened or brought in. */
import { useEffect, useState } from 'react';
import { useWorkbench } from '../state/index.ts';
import { bringsPictures, texts } from '../ui/index.ts';
import { useFrame } from './context.ts';

export function FileDrops() {
  const { flows } = useFrame();
  const { books } = useWorkbench();
  const [over, setOver] = useState<'file' | 'picture' | null>(null);
  useEffect(() => {
    const brings = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;
    const show = (event: DragEvent): void => {
      if (!brings(event)) return;
      event.preventDefault();
      setOver(books.get() && bringsPictures(event) ? 'picture' : 'file');
    };
    const hide = (event: DragEvent): void => {
      if (event.relatedTarget === null) setOver(null);
    };
    const take = async (event: DragEvent): Promise<void> => {
      if (!brings(event)) return;
      event.preventDefault();
      const file = event.dataTransfer?.files[0];
      if (file) await flows.openFile({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) });
    };
    const drop = (event: DragEvent): void => void take(event);
    // Before whoever takes the file inside the page keeps the event to itself.
    const end = (): void => setOver(null);
    window.addEventListener('dragover', show);
    window.addEventListener('dragleave', hide);
    window.addEventListener('drop', end, true);
    window.addEventListener('drop', drop);
    return () => {
      window.removeEventListener('dragover', show);
      window.removeEventListener('dragleave', hide);
      window.removeEventListener('drop', end, true);
      window.removeEventListener('drop', drop);
    };
  }, [flows, books]);
  if (over === null) return null;
  return (
    <div className="drop-hint" data-picture={over === 'picture' || undefined}>
      {over === 'picture' ? texts.frame.home.dropPicture : texts.frame.home.drop}
    </div>
  );
}
