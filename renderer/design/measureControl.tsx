/** A figure to drag or to type. In: its field and value; out: other values, each within its range. */
import { useState } from 'react';
import { FieldError, Group, Input, Label, Slider, SliderThumb, SliderTrack, TextField } from 'react-aria-components';
import { design as words } from '../ui/texts/design.en.ts';
import type { MeasureField } from './settings/fields.ts';
import { readFigure } from './settings/range.ts';
import { sayFigure, shownFigure } from './settings/say.ts';
import { usePaced } from './usePaced.ts';

export interface MeasureControlProps {
  readonly name: string;
  readonly field: MeasureField;
  readonly value: number;
  /** One of a run of values, as they come while dragging. */
  readonly onChange: (value: number) => void;
  /** The run is over. */
  readonly onEnd: () => void;
}

export function MeasureControl({ name, field, value, onChange, onEnd }: MeasureControlProps) {
  const { shown, step, end } = usePaced(value, onChange, onEnd);
  return (
    <Group className="design-measure" aria-label={name}>
      <Slider
        className="design-slider"
        value={shown}
        minValue={Math.min(field.least, value)}
        maxValue={Math.max(field.most, value)}
        step={field.step}
        onChange={(next) => step(Number(next))}
        onChangeEnd={end}
      >
        <Label>{name}</Label>
        <SliderTrack className="design-track">
          <SliderThumb className="design-thumb" aria-valuetext={sayFigure(field, shown)} />
        </SliderTrack>
      </Slider>
      <Figure
        name={name}
        field={field}
        value={shown}
        onDone={(next) => {
          onChange(next);
          onEnd();
        }}
      />
    </Group>
  );
}

interface FigureProps {
  readonly name: string;
  readonly field: MeasureField;
  readonly value: number;
  readonly onDone: (value: number) => void;
}

/** The figure itself: taken when it is left or confirmed; what can't be taken says why and changes nothing. */
function Figure({ name, field, value, onDone }: FigureProps) {
  const shown = String(shownFigure(field, value));
  const [typed, setTyped] = useState(shown);
  const [problem, setProblem] = useState<string | null>(null);
  const [before, setBefore] = useState(shown);
  if (before !== shown) {
    setBefore(shown);
    setTyped(shown);
    setProblem(null);
  }
  const done = (): void => {
    const read = readFigure(field, typed);
    setProblem(read.ok ? null : read.problem);
    if (!read.ok || typed.trim() === shown) return;
    setTyped(shown);
    onDone(read.value);
  };
  return (
    <TextField
      className="design-figure"
      aria-label={words.figure(name)}
      value={typed}
      isInvalid={problem !== null}
      onChange={setTyped}
      onBlur={done}
      onKeyDown={(event) => {
        if (event.key === 'Enter') done();
        if (event.key !== 'Escape' || typed === shown) return;
        setTyped(shown);
        setProblem(null);
        event.preventDefault();
        event.stopPropagation();
      }}
    >
      <Input className="input" inputMode="decimal" />
      <span className="design-unit" aria-hidden="true">
        {words.units[field.unit].name}
      </span>
      <FieldError className="field-problem">{problem}</FieldError>
    </TextField>
  );
}
