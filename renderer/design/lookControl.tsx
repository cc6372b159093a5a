/** The look of a line of display type. In: a look; out: the same with another size, letters, spacing, slope or weight. */
import { useState } from 'react';
import type { DisplaySetting, LetterStyle } from '#design';
import { Chooser, type Option, Tick } from '../ui/index.ts';
import { design as words } from '../ui/texts/design.en.ts';
import { Foldable } from './foldable.tsx';
import { MeasureControl } from './measureControl.tsx';
import { LETTERSPACE, type LookField } from './settings/fields.ts';

export interface LookControlProps {
  readonly name: string;
  readonly says: string;
  readonly marked: boolean;
  readonly field: LookField;
  readonly value: DisplaySetting;
  /** `part`: which figure is dragged, for steps that belong together. */
  readonly onChange: (value: DisplaySetting, part: string) => void;
  readonly onEnd: () => void;
}

const letters = Object.entries(words.look.letterTexts).map(([value, text]) => ({ value, text }) as Option<LetterStyle>);

export function LookControl({ name, says, marked, field, value, onChange, onEnd }: LookControlProps) {
  const [isOpen, open] = useState(false);
  const at = (part: string): string => `${name}: ${part}`;
  const now = (next: DisplaySetting, part: string): void => {
    onChange(next, part);
    onEnd();
  };
  return (
    <Foldable title={name} says={says} marked={marked} level={4} isOpen={isOpen} onToggle={open}>
      <MeasureControl
        name={at(words.look.size)}
        field={field.size}
        value={value.size}
        onChange={(size) => onChange({ ...value, size }, 'size')}
        onEnd={onEnd}
      />
      <Chooser
        label={at(words.look.letters)}
        value={value.letters}
        options={letters}
        onChange={(next) => now({ ...value, letters: next }, 'letters')}
      />
      <MeasureControl
        name={at(words.look.letterspace)}
        field={LETTERSPACE}
        value={value.letterspace}
        onChange={(letterspace) => onChange({ ...value, letterspace }, 'letterspace')}
        onEnd={onEnd}
      />
      <div className="design-ticks">
        <Tick
          text={words.look.italic}
          selected={value.italic}
          onChange={(italic) => now({ ...value, italic }, 'italic')}
        />
        <Tick text={words.look.bold} selected={value.bold} onChange={(bold) => now({ ...value, bold }, 'bold')} />
      </div>
    </Foldable>
  );
}
