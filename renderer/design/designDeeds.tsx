/** The design as a whole: its name, and what can be done with it. In: a design; out: copies, files, the way back. */
import { useState } from 'react';
import { DropMenu, IconButton, type MenuChoice, TextInput } from '../ui/index.ts';
import { design as words } from '../ui/texts/design.en.ts';
import type { FieldParts } from './controls.tsx';
import { baseOf, differences } from './settings/compare.ts';

export interface DesignDeedsProps extends FieldParts {
  /** Whether the design is the book's own. */
  readonly own: boolean;
}

export function DesignDeeds({ settings, designing, own }: DesignDeedsProps) {
  const base = baseOf(settings).name;
  const choices: MenuChoice[] = [
    { id: 'copy', text: own ? words.duplicate : words.keepAs, run: () => designing.duplicate() },
    {
      id: 'reset',
      text: words.resetAll(base),
      disabled: !own || differences(settings).length === 0,
      run: () => designing.reset(),
    },
    { id: 'drop', text: words.drop, disabled: !own, run: () => designing.drop() },
  ];
  const files: MenuChoice[] = [
    { id: 'save', text: words.save, run: () => void designing.save() },
    { id: 'load', text: words.load, run: () => void designing.load() },
  ];
  return (
    <div className="design-deeds">
      {own ? (
        <DesignName key={settings.id} settings={settings} designing={designing} />
      ) : (
        <p className="field-help">{words.firstChange(settings.name)}</p>
      )}
      <DropMenu label={words.menu} blocks={[{ choices }, { choices: files }]}>
        <IconButton icon="more" name={words.menu} />
      </DropMenu>
    </div>
  );
}

/** The name is taken when the field is left; an empty one is not. */
function DesignName({ settings, designing }: FieldParts) {
  const [typed, setTyped] = useState<string | null>(null);
  const name = typed ?? settings.name;
  const isEmpty = name.trim() === '';
  const done = (): void => {
    if (typed !== null && !isEmpty && typed !== settings.name) {
      designing.adjust((each) => ({ ...each, name: typed.trim() }), 'name');
      designing.seal();
    }
    if (!isEmpty) setTyped(null);
  };
  return (
    <TextInput
      label={words.name}
      value={name}
      onChange={setTyped}
      onDone={done}
      problem={isEmpty ? words.nameProblem : null}
    />
  );
}
