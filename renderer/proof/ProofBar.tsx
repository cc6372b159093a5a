/** What stands above the spread: turning, folio, edition, facing pages. */
import { useState } from 'react';
import { Input, Label, TextField, ToggleButton } from 'react-aria-components';
import { useWorkbench } from '../state/index.ts';
import { IconButton, useTools } from '../ui/index.ts';
import { proof as texts } from '../ui/texts/proof.en.ts';
import { EditionMenu } from './EditionMenu.tsx';
import { pageBeyond, turnTo } from './follow.ts';
import { useLayout, useProofRoom, useView } from './hooks.ts';
import { pageOfFolio } from './places.ts';

/** The field that a folio is typed into, for the command that leads there. */
export const FOLIO_FIELD = 'proof-folio';

export function ProofBar() {
  const workbench = useWorkbench();
  const room = useProofRoom();
  const facing = useView((state) => state.facing);
  const turn = (spreads: number) => () => turnTo(workbench, room, pageBeyond(workbench, room, spreads));
  return (
    <div className="proof-bar">
      <IconButton icon="left" name={texts.previous} onPress={turn(-1)} />
      <FolioField />
      <IconButton icon="right" name={texts.next} onPress={turn(1)} />
      <span className="proof-bar-gap" />
      <EditionMenu kind="print" />
      <ToggleButton
        className="button"
        isSelected={facing === 'facing'}
        onChange={(selected) => room.view.look({ facing: selected ? 'facing' : 'single' })}
      >
        {texts.facing}
      </ToggleButton>
    </div>
  );
}

/** Shows the folio in view, and takes another. */
function FolioField() {
  const workbench = useWorkbench();
  const room = useProofRoom();
  const { problem } = useTools();
  const page = useView((state) => state.page);
  const folio = useLayout((state) => state.pages[page]?.folio.label ?? '');
  const count = useLayout((state) => state.count);
  const [typed, setTyped] = useState<string | null>(null);
  const go = (): void => {
    if (typed === null || typed.trim() === '') return;
    const found = pageOfFolio(workbench.layout.get().pages, typed);
    if (found === null) problem(texts.noFolio(typed.trim()));
    else turnTo(workbench, room, found);
    setTyped(null);
  };
  return (
    <TextField className="folio-field" value={typed ?? folio} onChange={setTyped}>
      <Label>{texts.goToShort}</Label>
      <Input
        id={FOLIO_FIELD}
        className="input figures"
        onFocus={(event) => event.currentTarget.select()}
        onBlur={() => setTyped(null)}
        onKeyDown={(event) => {
          if (event.key === 'Enter') go();
        }}
      />
      <span className="quiet figures">{texts.ofPages(count)}</span>
    </TextField>
  );
}
