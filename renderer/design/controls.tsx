/** The panel's fields. In: a design and the hands on it; out: sliders, choices and ticks that change one setting each. */
import { Label, Slider, SliderOutput, SliderThumb, SliderTrack } from 'react-aria-components';
import type { DesignSettings } from '#design';
import { Chooser, type Option, Tick } from '../ui/index.ts';
import { design as words } from '../ui/texts/design.en.ts';
import type { Designing } from './designing.ts';
import { MEASURES, type MeasureName } from './measures.ts';

export interface FieldParts {
  readonly settings: DesignSettings;
  readonly designing: Designing;
}

/** A figure: drag it, or use the arrow keys. One drag is undone at once. */
export function MeasureField({ settings, designing, name }: FieldParts & { readonly name: MeasureName }) {
  const { unit, least, most, step, read, write } = MEASURES[name];
  const value = read(settings);
  return (
    <Slider
      className="design-slider"
      value={value}
      minValue={Math.min(least, value)}
      maxValue={Math.max(most, value)}
      step={step}
      onChange={(next) => designing.adjust((each) => write(each, Number(next)), name)}
      onChangeEnd={() => designing.seal()}
    >
      <Label>{words.measures[name]}</Label>
      <SliderOutput className="design-value">{words.units[unit](value)}</SliderOutput>
      <SliderTrack className="design-track">
        <SliderThumb className="design-thumb" />
      </SliderTrack>
    </Slider>
  );
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

interface TickProps extends FieldParts {
  readonly text: string;
  readonly selected: boolean;
  readonly write: (settings: DesignSettings, selected: boolean) => DesignSettings;
}

export function TickField({ designing, text, selected, write }: TickProps) {
  return (
    <Tick
      text={text}
      selected={selected}
      onChange={(next) => {
        designing.adjust((each) => write(each, next), text);
        designing.seal();
      }}
    />
  );
}
