/** Features of the text's face. In: OpenType tags; out: the tags with another kind of figures, with or without ligatures. */
import { ChoiceRow, Tick } from '../ui/index.ts';
import { design as words } from '../ui/texts/design.en.ts';

export interface FeatureFieldsProps {
  readonly value: readonly string[];
  readonly onChange: (value: readonly string[]) => void;
}

/** Tags as the OpenType feature registry names them: old-style and lining figures, discretionary ligatures. */
const [OLD_STYLE, LINING, LIGATURES] = ['onum', 'lnum', 'dlig'] as const;

export function FeatureFields({ value, onChange }: FeatureFieldsProps) {
  const without = (...tags: readonly string[]): readonly string[] => value.filter((tag) => !tags.includes(tag));
  return (
    <>
      <ChoiceRow
        label={words.figures}
        value={value.includes(OLD_STYLE) ? 'oldStyle' : 'lining'}
        options={[
          { value: 'oldStyle', text: words.figureKinds.oldStyle },
          { value: 'lining', text: words.figureKinds.lining },
        ]}
        onChange={(kind) => onChange([kind === 'oldStyle' ? OLD_STYLE : LINING, ...without(OLD_STYLE, LINING)])}
      />
      <Tick
        text={words.ligatures}
        selected={value.includes(LIGATURES)}
        onChange={(on) => onChange(on ? [...value, LIGATURES] : without(LIGATURES))}
      />
    </>
  );
}
