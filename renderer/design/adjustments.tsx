/**
 * All that can be adjusted, in groups of which one is open, or by words that are looked for. In: a design; out: its fields.
 */
import { useState } from 'react';
import { Input, Label, SearchField } from 'react-aria-components';
import type { EditionId } from '#base';
import { IconButton } from '../ui/index.ts';
import { design as words } from '../ui/texts/design.en.ts';
import type { FieldParts } from './controls.tsx';
import { Foldable } from './foldable.tsx';
import { GroupSpecimen } from './groupSpecimen.tsx';
import { SettingField } from './settingField.tsx';
import { differsAt } from './settings/compare.ts';
import { GROUP_NAMES, type GroupName, settingsIn } from './settings/groups.ts';
import type { SettingPath } from './settings/paths.ts';
import { hasWords } from './settings/say.ts';

export interface AdjustmentsProps extends FieldParts {
  /** A print edition for specimens; null in a book without one. */
  readonly print: EditionId | null;
}

export function Adjustments({ print, ...parts }: AdjustmentsProps) {
  const [wanted, setWanted] = useState('');
  const [open, setOpen] = useState<GroupName | null>('text');
  return (
    <div className="design-groups">
      <SearchField className="field design-find" value={wanted} onChange={setWanted}>
        <Label>{words.find}</Label>
        <span className="design-find-row">
          <Input className="input" placeholder={words.findHint} />
          {wanted !== '' && <IconButton icon="close" name={words.showAll} slot="clear" />}
        </span>
      </SearchField>
      {wanted.trim() === '' ? (
        GROUP_NAMES.map((group) => (
          <Group
            key={group}
            {...parts}
            print={print}
            group={group}
            isOpen={open === group}
            onToggle={(isOpen) => setOpen(isOpen ? group : null)}
          />
        ))
      ) : (
        <Found {...parts} wanted={wanted.trim()} />
      )}
    </div>
  );
}

interface GroupProps extends AdjustmentsProps {
  readonly group: GroupName;
  readonly isOpen: boolean;
  readonly onToggle: (open: boolean) => void;
}

function Group({ group, isOpen, onToggle, print, settings, designing }: GroupProps) {
  const paths = settingsIn(group);
  const changed = paths.filter((path) => differsAt(settings, path)).length;
  return (
    <Foldable
      title={words.groups[group]}
      says={changed > 0 ? words.changes(changed) : ''}
      marked={changed > 0}
      level={3}
      isOpen={isOpen}
      onToggle={onToggle}
    >
      {print && <GroupSpecimen group={group} settings={settings} print={print} />}
      <Fields paths={paths} settings={settings} designing={designing} />
    </Foldable>
  );
}

function Fields({ paths, ...parts }: FieldParts & { readonly paths: readonly SettingPath[] }) {
  return paths.filter((path) => isThere(path, parts)).map((path) => <SettingField key={path} path={path} {...parts} />);
}

/** A setting that does nothing as things are has no field; nor has one that stands in another's. */
function isThere(path: SettingPath, { settings }: FieldParts): boolean {
  if (path === 'display.family') return false;
  const { kind, afterDrop } = settings.leadIn;
  if (path === 'leadIn.dropLines' || path === 'leadIn.afterDrop') return kind === 'dropCap';
  if (path === 'leadIn.spacing') return kind !== 'none' && (kind !== 'dropCap' || afterDrop);
  if (path === 'text.indent' || path === 'text.flushFirst') return settings.text.paragraphs === 'indented';
  const [part] = path.split('.');
  if (part !== 'opener' && part !== 'part' && part !== 'matter') return true;
  return !path.endsWith('.ornamentPlace') || settings[part].ornament !== null;
}

/** The settings that have the words, under the names of their groups. */
function Found({ wanted, ...parts }: FieldParts & { readonly wanted: string }) {
  const found = GROUP_NAMES.map((group) => {
    const paths = settingsIn(group).filter(
      (path) => isThere(path, parts) && hasWords(path, words.groups[group], wanted),
    );
    return { group, paths };
  }).filter(({ paths }) => paths.length > 0);
  return (
    <div className="design-found" aria-live="polite">
      {found.length === 0 && <p className="field-help">{words.noneFound(wanted)}</p>}
      {found.map(({ group, paths }) => (
        <section key={group} className="design-group">
          <h3>{words.groups[group]}</h3>
          <div className="design-fields">
            <Fields {...parts} paths={paths} />
          </div>
        </section>
      ))}
    </div>
  );
}
