/**
 * One setting: its control, what it does, a mark where it differs from the design it began as, and the way back. In: a design
 * and a path; out: changes of that setting.
 */
import { type ComponentType, useId } from 'react';
import { type DisplaySetting, ORNAMENT_IDS, ornament } from '#design';
import { Chooser, IconButton, Tick } from '../ui/index.ts';
import { design as words } from '../ui/texts/design.en.ts';
import { BreakOrnament } from './breakOrnament.tsx';
import type { FieldParts } from './controls.tsx';
import { FaceFields } from './faces.tsx';
import { FeatureFields } from './featureFields.tsx';
import { LookControl } from './lookControl.tsx';
import { MeasureControl } from './measureControl.tsx';
import { baseOf, differsAt } from './settings/compare.ts';
import { fieldOf } from './settings/fields.ts';
import { type SettingPath, type SettingValue, settingAt, withSetting } from './settings/paths.ts';
import { sayValue, textOf } from './settings/say.ts';
import { VerseIndent } from './verseIndent.tsx';

export interface SettingFieldProps extends FieldParts {
  readonly path: SettingPath;
}

export function SettingField({ path, settings, designing }: SettingFieldProps) {
  const help = useId();
  const { name, help: explanation } = textOf(path);
  const changed = differsAt(settings, path);
  const set = (value: SettingValue): void => {
    designing.adjust((each) => withSetting(each, path, value), path);
    designing.seal();
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset would want its legend before all else.
    <div className="design-setting" data-changed={changed || undefined} role="group" aria-describedby={help}>
      <Control path={path} settings={settings} designing={designing} />
      {fieldOf(path).kind === 'look' ? (
        <span id={help} hidden>
          {explanation}
        </span>
      ) : (
        <p id={help} className="field-help">
          {explanation}
        </p>
      )}
      {changed && (
        <Back path={path} name={name} settings={settings} onBack={() => set(settingAt(baseOf(settings), path))} />
      )}
    </div>
  );
}

interface BackProps extends Pick<SettingFieldProps, 'path' | 'settings'> {
  readonly name: string;
  readonly onBack: () => void;
}

/** The mark of a changed setting is the way back too. */
export function Back({ path, name, settings, onBack }: BackProps) {
  const before = sayValue(path, settingAt(baseOf(settings), path));
  return (
    <span className="design-back">
      <IconButton icon="undo" name={words.backNamed(name, before)} onPress={onBack} />
      <span aria-hidden="true">{words.back(before)}</span>
    </span>
  );
}

/** Settings whose controls know more than a table can say. */
const OWN: Partial<Readonly<Record<SettingPath, ComponentType<FieldParts>>>> = {
  'text.family': FaceFields,
  'sceneBreak.ornament': BreakOrnament,
};

function Control({ path, settings, designing }: SettingFieldProps) {
  const { name } = textOf(path);
  const field = fieldOf(path);
  const value = settingAt(settings, path);
  const adjust = (next: SettingValue, part = ''): void =>
    designing.adjust((each) => withSetting(each, path, next), `${path} ${part}`);
  const end = (): void => designing.seal();
  const set = (next: SettingValue): void => {
    adjust(next);
    end();
  };
  switch (field.kind) {
    case 'measure':
      return <MeasureControl name={name} field={field} value={Number(value)} onChange={adjust} onEnd={end} />;
    case 'look':
      return (
        <LookControl
          name={name}
          says={sayValue(path, value)}
          marked={differsAt(settings, path)}
          field={field}
          value={value as DisplaySetting}
          onChange={adjust}
          onEnd={end}
        />
      );
    case 'tick':
      return <Tick text={name} selected={value === true} onChange={set} />;
    case 'choice':
      return <Chooser label={name} value={String(value)} options={optionsOf(field.texts)} onChange={set} />;
    case 'ornament':
      return (
        <Chooser
          label={name}
          value={value === null ? NONE : String(value)}
          options={optionsOf(ORNAMENTS)}
          onChange={(id) => set(id === NONE ? null : id)}
        />
      );
    case 'features':
      return <FeatureFields value={value as readonly string[]} onChange={set} />;
    case 'verseIndent':
      return <VerseIndent name={name} field={field.measure} value={value} onChange={adjust} onEnd={end} />;
    case 'own': {
      const Own = OWN[path];
      return Own ? <Own settings={settings} designing={designing} /> : null;
    }
  }
}

const NONE = 'none';

const ORNAMENTS: Readonly<Record<string, string>> = {
  [NONE]: words.noOrnament,
  ...Object.fromEntries(ORNAMENT_IDS.map((id) => [id, ornament(id).name])),
};

function optionsOf(texts: Readonly<Record<string, string>>) {
  return Object.entries(texts).map(([value, text]) => ({ value, text }));
}
