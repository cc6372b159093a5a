/** What differs from the design that this one began as. In: a design; out: each difference, with the way back. */
import { useState } from 'react';
import { design as words } from '../ui/texts/design.en.ts';
import type { FieldParts } from './controls.tsx';
import { Foldable } from './foldable.tsx';
import { Back } from './settingField.tsx';
import { baseOf, differences } from './settings/compare.ts';
import { GROUP_NAMES, settingsIn } from './settings/groups.ts';
import { type SettingPath, settingAt, withSetting } from './settings/paths.ts';
import { saySetting, textOf } from './settings/say.ts';

export function DifferencesList({ settings, designing }: FieldParts) {
  const [isOpen, open] = useState(false);
  const base = baseOf(settings);
  const paths = differences(settings);
  const goBack = (path: SettingPath): void => {
    designing.adjust((each) => withSetting(each, path, settingAt(base, path)), path);
    designing.seal();
  };
  if (paths.length === 0) return <p className="field-help">{words.noDifference(base.name)}</p>;
  return (
    <Foldable title={words.differences(base.name, paths.length)} level={3} isOpen={isOpen} onToggle={open}>
      <ul className="design-differences">
        {paths.map((path) => (
          <li key={path}>
            <span>
              {`${groupOf(path)}: ${textOf(path).name}`}
              <span className="field-help">{words.difference(saySetting(settings, path), saySetting(base, path))}</span>
            </span>
            <Back path={path} name={textOf(path).name} settings={settings} onBack={() => goBack(path)} />
          </li>
        ))}
      </ul>
    </Foldable>
  );
}

function groupOf(path: SettingPath): string {
  const group = GROUP_NAMES.find((each) => settingsIn(each).includes(path));
  return group === undefined ? '' : words.groups[group];
}
