/** How the ebook is looked at: screen, text size, margins, light. */
import { ChoiceRow, Chooser } from '../ui/index.ts';
import { proof as texts } from '../ui/texts/proof.en.ts';
import { useProofRoom, useView } from './hooks.ts';
import {
  SCREEN_MARGINS,
  SCREENS,
  type ScreenMargin,
  type ScreenName,
  TEXT_SIZES,
  TONES,
  type Tone,
} from './viewStore.ts';

const SCREEN_OPTIONS = (Object.keys(SCREENS) as ScreenName[]).map((value) => ({
  value,
  text: texts.ebook.screens[value],
}));
const MARGIN_OPTIONS = (Object.keys(SCREEN_MARGINS) as ScreenMargin[]).map((value) => ({
  value,
  text: texts.ebook.margins[value],
}));
const TONE_OPTIONS = TONES.map((value) => ({ value, text: texts.ebook.tones[value] }));
const SIZE_OPTIONS = TEXT_SIZES.map((size) => ({ value: String(size), text: texts.percent(size) }));

export function EbookLook() {
  const { view } = useProofRoom();
  const { screen, textSize, margin, tone } = useView((state) => state.ebook);
  return (
    <div className="ebook-look">
      <ChoiceRow<ScreenName>
        label={texts.ebook.screen}
        value={screen}
        options={SCREEN_OPTIONS}
        onChange={(next) => view.lookAtEbook({ screen: next })}
      />
      <ChoiceRow<Tone>
        label={texts.ebook.tone}
        value={tone}
        options={TONE_OPTIONS}
        onChange={(next) => view.lookAtEbook({ tone: next })}
      />
      <Chooser
        label={texts.ebook.textSize}
        value={String(textSize)}
        options={SIZE_OPTIONS}
        onChange={(next) => view.lookAtEbook({ textSize: Number(next) })}
      />
      <Chooser<ScreenMargin>
        label={texts.ebook.margin}
        value={margin}
        options={MARGIN_OPTIONS}
        onChange={(next) => view.lookAtEbook({ margin: next })}
      />
    </div>
  );
}
