/** All that can be adjusted, by the parts of a page. In: a design; out: its fields. */
import type { ReactNode } from 'react';
import type { DesignSettings } from '#design';
import { design as words } from '../ui/texts/design.en.ts';
import { BreakOrnament, ornamentNames } from './breakOrnament.tsx';
import { ChoiceField, type FieldParts, MeasureField, TickField } from './controls.tsx';
import { FaceFields } from './faces.tsx';

function Group({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <fieldset className="design-group">
      <legend>{title}</legend>
      {children}
    </fieldset>
  );
}

export function Adjustments(parts: FieldParts) {
  return (
    <>
      <TextGroup {...parts} />
      <OpenerGroup {...parts} />
      <LeadInGroup {...parts} />
      <BreakGroup {...parts} />
      <HeadGroup {...parts} />
      <NoteGroup {...parts} />
      <Group title={words.groups.margins}>
        <MeasureField {...parts} name="inner" />
        <MeasureField {...parts} name="outer" />
        <MeasureField {...parts} name="top" />
        <MeasureField {...parts} name="bottom" />
        <p className="field-help">{words.marginsHelp}</p>
      </Group>
    </>
  );
}

function TextGroup(parts: FieldParts) {
  const { text } = parts.settings;
  const put = (settings: DesignSettings, some: Partial<DesignSettings['text']>): DesignSettings => ({
    ...settings,
    text: { ...settings.text, ...some },
  });
  return (
    <Group title={words.groups.text}>
      <FaceFields {...parts} />
      <MeasureField {...parts} name="size" />
      <MeasureField {...parts} name="leading" />
      <MeasureField {...parts} name="indent" />
      <TickField {...parts} text={words.justify} selected={text.justify} write={(s, justify) => put(s, { justify })} />
      <TickField
        {...parts}
        text={words.hyphenate}
        selected={text.hyphenate}
        write={(s, hyphenate) => put(s, { hyphenate })}
      />
      <TickField {...parts} text={words.hang} selected={text.hang} write={(s, hang) => put(s, { hang })} />
    </Group>
  );
}

function OpenerGroup(parts: FieldParts) {
  const { opener, recto } = parts.settings;
  const put = (settings: DesignSettings, some: Partial<DesignSettings['opener']>): DesignSettings => ({
    ...settings,
    opener: { ...settings.opener, ...some },
  });
  return (
    <Group title={words.groups.openers}>
      <MeasureField {...parts} name="sink" />
      <MeasureField {...parts} name="titleSize" />
      <MeasureField {...parts} name="spaceAfter" />
      <ChoiceField
        {...parts}
        label={words.align}
        value={opener.align}
        texts={words.aligns}
        write={(s, align) => put(s, { align })}
      />
      <ChoiceField
        {...parts}
        label={words.number}
        value={opener.number}
        texts={words.numbers}
        write={(s, number) => put(s, { number })}
      />
      <ChoiceField
        {...parts}
        label={words.ornament}
        value={opener.ornament ?? 'none'}
        texts={{ none: words.noOrnament, ...ornamentNames() }}
        write={(s, id) => put(s, { ornament: id === 'none' ? null : id })}
      />
      <TickField
        {...parts}
        text={words.showLabel}
        selected={opener.showLabel}
        write={(s, showLabel) => put(s, { showLabel })}
      />
      <TickField
        {...parts}
        text={words.recto}
        selected={recto.chapters}
        write={(s, chapters) => ({ ...s, recto: { ...s.recto, chapters } })}
      />
    </Group>
  );
}

function LeadInGroup(parts: FieldParts) {
  const { leadIn } = parts.settings;
  return (
    <Group title={words.groups.leadIn}>
      <ChoiceField
        {...parts}
        label={words.leadIn}
        value={leadIn.kind}
        texts={words.leadIns}
        write={(s, kind) => ({ ...s, leadIn: { ...s.leadIn, kind } })}
      />
      {leadIn.kind === 'dropCap' && <MeasureField {...parts} name="dropLines" />}
    </Group>
  );
}

function BreakGroup(parts: FieldParts) {
  const { sceneBreak } = parts.settings;
  return (
    <Group title={words.groups.breaks}>
      <ChoiceField
        {...parts}
        label={words.mark}
        value={sceneBreak.mark}
        texts={words.marks}
        write={(s, mark) => ({ ...s, sceneBreak: { ...s.sceneBreak, mark } })}
      />
      <BreakOrnament {...parts} />
      <MeasureField {...parts} name="breakLines" />
    </Group>
  );
}

function HeadGroup(parts: FieldParts) {
  const { heads, folios } = parts.settings;
  return (
    <Group title={words.groups.heads}>
      <ChoiceField
        {...parts}
        label={words.verso}
        value={heads.verso}
        texts={words.headTexts}
        write={(s, verso) => ({ ...s, heads: { ...s.heads, verso } })}
      />
      <ChoiceField
        {...parts}
        label={words.rectoHead}
        value={heads.recto}
        texts={words.headTexts}
        write={(s, recto) => ({ ...s, heads: { ...s.heads, recto } })}
      />
      <MeasureField {...parts} name="headSize" />
      <ChoiceField
        {...parts}
        label={words.folioPlace}
        value={folios.place}
        texts={words.folioPlaces}
        write={(s, place) => ({ ...s, folios: { ...s.folios, place } })}
      />
      <MeasureField {...parts} name="folioSize" />
      <TickField
        {...parts}
        text={words.folioOnOpeners}
        selected={folios.onOpeners}
        write={(s, onOpeners) => ({ ...s, folios: { ...s.folios, onOpeners } })}
      />
    </Group>
  );
}

function NoteGroup(parts: FieldParts) {
  return (
    <Group title={words.groups.notes}>
      <MeasureField {...parts} name="noteSize" />
      <MeasureField {...parts} name="noteLeading" />
      <TickField
        {...parts}
        text={words.noteRule}
        selected={parts.settings.notes.rule}
        write={(s, rule) => ({ ...s, notes: { ...s.notes, rule } })}
      />
    </Group>
  );
}
