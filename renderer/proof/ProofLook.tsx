/** How the spread is looked at: what is drawn over its pages, and how large it is. */
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { COMMANDS, type CommandId } from '#host';
import { useStore } from '../state/index.ts';
import { Button, DropMenu, IconButton, type MenuChoice, useTools } from '../ui/index.ts';
import { proof as texts } from '../ui/texts/proof.en.ts';
import { useProofRoom, useView } from './hooks.ts';
import { nextZoom, ZOOM_STEPS, type Zoom } from './spreads.ts';
import { OVERLAYS } from './viewStore.ts';

export function ProofLook() {
  return (
    <div className="proof-bar">
      <Overlays />
      <span className="proof-bar-gap" />
      <Size />
    </div>
  );
}

function Overlays() {
  const { view } = useProofRoom();
  const overlays = useView((state) => state.overlays);
  return (
    <ToggleButtonGroup
      className="overlays"
      aria-label={texts.overlays}
      selectionMode="multiple"
      selectedKeys={overlays}
      onSelectionChange={(keys) => {
        for (const each of OVERLAYS) if (keys.has(each) !== overlays.has(each)) view.toggleOverlay(each);
      }}
    >
      {OVERLAYS.map((overlay) => (
        <ToggleButton
          key={overlay}
          id={overlay}
          className="button"
          aria-label={texts.overlay[overlay]}
          aria-keyshortcuts={texts.overlayKeys[overlay]}
        >
          {texts.overlayShort[overlay]}
        </ToggleButton>
      ))}
    </ToggleButtonGroup>
  );
}

function Size() {
  const { view, size } = useProofRoom();
  const zoom = useView((state) => state.zoom);
  const percent = useStore(size, (now) => Math.round(now));
  const step = (direction: 1 | -1) => () => view.look({ zoom: nextZoom(size.get(), direction) });
  const name = typeof zoom === 'number' ? null : texts[zoom];
  return (
    // biome-ignore lint/a11y/useSemanticElements: three controls of one value, no form
    <div className="text-size" role="group" aria-label={texts.zoom}>
      <IconButton
        icon="less"
        name={texts.smallerPages}
        isDisabled={percent <= (ZOOM_STEPS[0] ?? 0)}
        onPress={step(-1)}
      />
      <SizeMenu zoom={zoom} name={name} percent={texts.percent(percent)} />
      <IconButton
        icon="add"
        name={texts.largerPages}
        isDisabled={percent >= (ZOOM_STEPS.at(-1) ?? 0)}
        onPress={step(1)}
      />
    </div>
  );
}

/** Sizes that have a command show its keys. */
const NAMED: readonly { readonly zoom: Zoom; readonly command: CommandId }[] = [
  { zoom: 'fit', command: 'proof.fit' },
  { zoom: 'width', command: 'proof.width' },
  { zoom: 100, command: 'proof.actual' },
];

interface SizeMenuProps {
  readonly zoom: Zoom;
  /** What a size that follows the room is called. */
  readonly name: string | null;
  readonly percent: string;
}

function SizeMenu({ zoom, name, percent }: SizeMenuProps) {
  const { view } = useProofRoom();
  const { keys } = useTools();
  const choice = (to: Zoom, text: string, shown: string | null): MenuChoice => ({
    id: String(to),
    text,
    keys: shown,
    chosen: zoom === to,
    run: () => view.look({ zoom: to }),
  });
  const named = NAMED.map(({ zoom: to, command }) => choice(to, COMMANDS[command].text, keys(COMMANDS[command].keys)));
  const steps = ZOOM_STEPS.filter((each) => each !== 100).map((each) => choice(each, texts.percent(each), null));
  return (
    <DropMenu label={texts.zoom} blocks={[{ choices: named }, { choices: steps }]}>
      <Button look="bare" icon="down" aria-label={texts.zoomNow(name, percent)}>
        {name !== null && <span className="size-name">{name}, </span>}
        <span className="figures">{percent}</span>
      </Button>
    </DropMenu>
  );
}
