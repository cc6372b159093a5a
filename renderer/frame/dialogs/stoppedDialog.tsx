/** Changes that can't be kept stop all work: the window must not go on as if they were. */
import { useBookState, useWorkbench } from '../../state/index.ts';
import { Button, Dialog, texts } from '../../ui/index.ts';
import { useFrame } from '../context.ts';

const words = texts.frame.stopped;

export function StoppedDialog() {
  const problem = useBookState((state) => state.problem);
  const { books } = useWorkbench();
  const { flows } = useFrame();
  if (problem === null) return null;
  return (
    <Dialog
      title={words.title}
      role="alertdialog"
      onClose={null}
      actions={
        <>
          <Button onPress={() => void flows.reopen()}>{words.reopen}</Button>
          <Button look="main" onPress={() => void books.tryAgain()}>
            {words.again}
          </Button>
        </>
      }
    >
      <p>{words.what(problem)}</p>
      <p>{words.safe}</p>
    </Dialog>
  );
}
