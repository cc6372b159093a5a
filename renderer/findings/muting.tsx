/** The author's word that a finding may stay as it is. In: a finding; out: it is muted with a reason, or heard again. */
import { useState } from 'react';
import type { Finding } from '#base';
import { type Change, findingId, mutedAs } from '#book';
import { useWorkbench } from '../state/index.ts';
import { texts as allTexts, Button, Dialog, TextInput, useTools } from '../ui/index.ts';
import { proof } from '../ui/texts/proof.en.ts';

const texts = proof.findings;

interface MuteDialogProps {
  readonly finding: Finding<Change>;
  readonly onClose: () => void;
  /** What takes the focus once the finding is gone from where it was. */
  readonly toFocus: () => void;
}

/** Asks why a finding may stay, and mutes it. */
export function MuteDialog({ finding, onClose, toFocus }: MuteDialogProps) {
  const make = useMaking();
  const { books } = useWorkbench();
  const [reason, setReason] = useState('');
  const mute = (): void => {
    if (reason.trim() === '') return;
    const { book } = books.current;
    const muted = mutedAs(book, finding, reason.trim());
    make({ kind: 'putMuted', muted, index: book.muted.length }, texts.mutedNow);
    onClose();
    requestAnimationFrame(toFocus);
  };
  return (
    <Dialog
      title={texts.muteTitle}
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>{allTexts.common.cancel}</Button>
          <Button look="main" onPress={mute} isDisabled={reason.trim() === ''}>
            {texts.mute}
          </Button>
        </>
      }
    >
      <p>{finding.message}</p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          mute();
        }}
      >
        <TextInput label={texts.muteWhy} value={reason} onChange={setReason} help={texts.muteHelp} autoFocus />
      </form>
    </Dialog>
  );
}

/** Makes a muted finding heard again. */
export function useHearing(): (finding: Finding) => void {
  const make = useMaking();
  return (finding) => make({ kind: 'dropMuted', muted: findingId(finding) }, texts.heardAgain);
}

/** Makes a change and tells of it, with the way back. */
function useMaking(): (change: Change, told: string) => void {
  const { books } = useWorkbench();
  const { tell, problem } = useTools();
  return (change, told) => {
    const made = books.apply(change, { origin: 'findings' });
    if (!made.ok) problem(made.problem);
    else tell({ kind: 'done', text: told, action: { text: allTexts.common.undo, run: () => void books.undo() } });
  };
}
