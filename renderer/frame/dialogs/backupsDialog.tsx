/** Earlier states of the book, to be opened as books of their own. */
import { useEffect, useState } from 'react';
import type { Backup } from '#host';
import { useBookState, useWorkbench } from '../../state/index.ts';
import { Button, Dialog, texts } from '../../ui/index.ts';
import { useFrame } from '../context.ts';
import { dayAndClock } from '../times.ts';

const words = texts.frame.backups;

export function BackupsDialog({ onClose }: { readonly onClose: () => void }) {
  const session = useBookState((state) => state.session);
  const { host } = useWorkbench();
  const { flows } = useFrame();
  const [backups, setBackups] = useState<readonly Backup[] | null>(null);
  useEffect(() => {
    host.backups({ session }).then((reply) => setBackups(reply.ok ? reply.value : []));
  }, [host, session]);
  return (
    <Dialog title={words.title} onClose={onClose} actions={<Button onPress={onClose}>{texts.common.close}</Button>}>
      <p className="quiet">{words.text}</p>
      {backups?.length === 0 && <p>{words.none}</p>}
      <ul className="plain-rows">
        {backups?.map(({ id, savedAt, size }) => (
          <li key={id} className="plain-row">
            <span className="figures">{dayAndClock(savedAt)}</span>
            <span className="quiet figures">{words.size(size)}</span>
            <Button
              onPress={() => {
                onClose();
                void flows.openBackup(session, id);
              }}
            >
              {words.open}
            </Button>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}
