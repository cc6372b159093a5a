/** Where verse stands. In: an indent, or that it is centred on its longest line; out: the other, or another indent. */
import { Tick } from '../ui/index.ts';
import { design as words } from '../ui/texts/design.en.ts';
import { MeasureControl } from './measureControl.tsx';
import type { MeasureField } from './settings/fields.ts';
import type { SettingValue } from './settings/paths.ts';

export interface VerseIndentProps {
  readonly name: string;
  readonly field: MeasureField;
  readonly value: SettingValue;
  readonly onChange: (value: SettingValue) => void;
  readonly onEnd: () => void;
}

/** Ems that verse is indented by when it is centred no longer. */
const INDENT = 2;

export function VerseIndent({ name, field, value, onChange, onEnd }: VerseIndentProps) {
  const isCentred = value === 'longestLine';
  return (
    <>
      <Tick
        text={words.onLongestLine}
        selected={isCentred}
        onChange={(centred) => {
          onChange(centred ? 'longestLine' : INDENT);
          onEnd();
        }}
      />
      {!isCentred && (
        <MeasureControl name={name} field={field} value={Number(value)} onChange={onChange} onEnd={onEnd} />
      )}
    </>
  );
}
