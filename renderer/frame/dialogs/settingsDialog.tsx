/** Settings of the window. In: what the person likes; out: the settings store, at once. */
import { useSettings, useWorkbench } from '../../state/index.ts';
import { Button, ChoiceRow, Dialog, Tick, texts } from '../../ui/index.ts';

const words = texts.frame.settings;

/** Per cent. */
export const ZOOMS: readonly number[] = [80, 90, 100, 115, 130, 150, 175, 200];

export function SettingsDialog({ onClose }: { readonly onClose: () => void }) {
  const { appearance, contrast, textZoom, spellCheck } = useSettings();
  const { settings } = useWorkbench();
  return (
    <Dialog
      title={words.title}
      onClose={onClose}
      actions={
        <Button look="main" onPress={onClose}>
          {texts.common.done}
        </Button>
      }
    >
      <ChoiceRow
        label={words.appearance}
        value={appearance}
        options={(['system', 'light', 'dark'] as const).map((value) => ({ value, text: words.appearances[value] }))}
        onChange={(next) => settings.set({ appearance: next })}
      />
      <ChoiceRow
        label={words.contrast}
        value={contrast}
        options={(['system', 'usual', 'more'] as const).map((value) => ({ value, text: words.contrasts[value] }))}
        onChange={(next) => settings.set({ contrast: next })}
      />
      <ChoiceRow
        label={words.zoom}
        value={String(textZoom)}
        options={ZOOMS.map((zoom) => ({ value: String(zoom), text: `${zoom}%` }))}
        onChange={(next) => settings.set({ textZoom: Number(next) })}
      />
      <Tick text={words.spell} selected={spellCheck} onChange={(next) => settings.set({ spellCheck: next })} />
    </Dialog>
  );
}

/** The next larger or smaller text. */
export function zoomed(now: number, step: 1 | -1): number {
  const near = step > 0 ? ZOOMS.find((zoom) => zoom > now) : ZOOMS.findLast((zoom) => zoom < now);
  return near ?? now;
}
