/** How the ebook is looked at: screen, text size, margins, light; and whether it keeps to the words of the print proof. */
import { ToggleButton } from 'react-aria-components';
import { Button, ChoiceRow, DropMenu, IconButton } from '../ui/index.ts';
import { proof as texts } from '../ui/texts/proof.en.ts';
import { EditionMenu } from './EditionMenu.tsx';
import { useProofRoom, useView } from './hooks.ts';
import { SCREEN_MARGINS, SCREENS, type ScreenMargin, type ScreenName, TEXT_SIZES, TONES } from './viewStore.ts';

const SCREEN_OPTIONS = (Object.keys(SCREENS) as ScreenName[]).map((value) => ({
  value,
  text: texts.ebook.screens[value],
}));
const MARGINS = Object.keys(SCREEN_MARGINS) as ScreenMargin[];

export function EbookLook() {
  const { view } = useProofRoom();
  const together = useView((state) => state.together);
  const screen = useView((state) => state.ebook.screen);
  return (
    <div className="ebook-look">
      <div className="proof-bar">
        <ToggleButton
          className="button"
          isSelected={together}
          onChange={(selected) => view.look({ together: selected })}
          aria-description={texts.togetherHelp}
        >
          {texts.together}
        </ToggleButton>
        <span className="proof-bar-gap" />
        <EditionMenu kind="ebook" />
        <LookMenu />
      </div>
      <div className="proof-bar">
        <ChoiceRow<ScreenName>
          label={texts.ebook.screen}
          value={screen}
          options={SCREEN_OPTIONS}
          onChange={(next) => view.lookAtEbook({ screen: next })}
        />
        <span className="proof-bar-gap" />
        <TextSize />
      </div>
    </div>
  );
}

function TextSize() {
  const { view } = useProofRoom();
  const size = useView((state) => state.ebook.textSize);
  const smaller = TEXT_SIZES.findLast((each) => each < size);
  const larger = TEXT_SIZES.find((each) => each > size);
  return (
    // biome-ignore lint/a11y/useSemanticElements: three controls of one value, no form
    <div className="text-size" role="group" aria-label={texts.ebook.textSize}>
      <IconButton
        icon="less"
        name={texts.ebook.smaller}
        isDisabled={smaller === undefined}
        onPress={() => view.lookAtEbook({ textSize: smaller ?? size })}
      />
      <span className="figures">{texts.percent(size)}</span>
      <IconButton
        icon="add"
        name={texts.ebook.larger}
        isDisabled={larger === undefined}
        onPress={() => view.lookAtEbook({ textSize: larger ?? size })}
      />
    </div>
  );
}

function LookMenu() {
  const { view } = useProofRoom();
  const { tone, margin } = useView((state) => state.ebook);
  const tones = TONES.map((each) => ({
    id: each,
    text: texts.ebook.tones[each],
    chosen: each === tone,
    run: () => view.lookAtEbook({ tone: each }),
  }));
  const margins = MARGINS.map((each) => ({
    id: each,
    text: texts.ebook.margins[each],
    chosen: each === margin,
    run: () => view.lookAtEbook({ margin: each }),
  }));
  const blocks = [
    { heading: texts.ebook.tone, choices: tones },
    { heading: texts.ebook.margin, choices: margins },
  ];
  return (
    <DropMenu label={texts.ebook.look} blocks={blocks}>
      <Button icon="down">{texts.ebook.tones[tone]}</Button>
    </DropMenu>
  );
}
