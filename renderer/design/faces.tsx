/** The faces of a design. In: a design; out: its choices of families. */
import { useWorkbench } from '../state/index.ts';
import { design as words } from '../ui/texts/design.en.ts';
import { ChoiceField, type FieldParts } from './controls.tsx';

/** The families that travel with the program, by name. */
function useFamilies(): Readonly<Record<string, string>> {
  const { fonts } = useWorkbench().info;
  return Object.fromEntries(fonts.filter((each) => !each.fallback).map(({ family }) => [family, family]));
}

export function FaceFields(parts: FieldParts) {
  const { text, display } = parts.settings;
  const families = useFamilies();
  return (
    <>
      <ChoiceField
        {...parts}
        label={words.face}
        value={text.family}
        texts={families}
        write={(s, family) => ({ ...s, text: { ...s.text, family } })}
      />
      <ChoiceField
        {...parts}
        label={words.displayFace}
        value={display.family}
        texts={families}
        write={(s, family) => ({ ...s, display: { ...s.display, family } })}
      />
    </>
  );
}
