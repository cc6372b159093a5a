/** The mark between scenes. In: a design; out: the choice of its ornament. */
import { ORNAMENT_IDS, type OrnamentId, ornament } from '#design';
import { design as words } from '../ui/texts/design.en.ts';
import { ChoiceField, type FieldParts } from './controls.tsx';

export function BreakOrnament(parts: FieldParts) {
  const { sceneBreak } = parts.settings;
  return (
    <ChoiceField
      {...parts}
      label={words.breakOrnament}
      value={sceneBreak.ornament}
      texts={ornamentNames()}
      write={(s, id) => ({ ...s, sceneBreak: { ...s.sceneBreak, ornament: id } })}
    />
  );
}

export function ornamentNames(): Readonly<Record<OrnamentId, string>> {
  return Object.fromEntries(ORNAMENT_IDS.map((id) => [id, ornament(id).name])) as Record<OrnamentId, string>;
}
