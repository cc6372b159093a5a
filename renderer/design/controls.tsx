/** The panel's fields. In: a design and the hands on it; out: choices that change one setting each. */
import type { DesignSettings } from '#design';
import { Chooser, type Option } from '../ui/index.ts';
import type { Designing } from './designing.ts';

export interface FieldParts {
  readonly settings: DesignSettings;
  readonly designing: Designing;
}

interface ChoiceProps<Value extends string> extends FieldParts {
  readonly label: string;
  readonly value: Value;
  readonly texts: Readonly<Record<Value, string>>;
  readonly write: (settings: DesignSettings, value: Value) => DesignSettings;
}

export function ChoiceField<Value extends string>({ designing, label, value, texts, write }: ChoiceProps<Value>) {
  const options = Object.entries(texts).map(([each, text]) => ({ value: each, text }) as Option<Value>);
  return (
    <Chooser
      label={label}
      value={value}
      options={options}
      onChange={(next) => {
        designing.adjust((each) => write(each, next), label);
        designing.seal();
      }}
    />
  );
}
