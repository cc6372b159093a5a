/** What this program is. */
import { useWorkbench } from '../../state/index.ts';
import { Button, Dialog, texts } from '../../ui/index.ts';

const words = texts.frame.about;

export function AboutDialog({ onClose }: { readonly onClose: () => void }) {
  const { info } = useWorkbench();
  return (
    <Dialog
      title={words.title}
      onClose={onClose}
      actions={
        <Button look="main" onPress={onClose}>
          {texts.common.close}
        </Button>
      }
    >
      <p className="figures">{words.version(info.version)}</p>
      <p>{words.text}</p>
      <p className="quiet">{words.licences}</p>
    </Dialog>
  );
}
