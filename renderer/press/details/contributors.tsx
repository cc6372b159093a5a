/** Who made the book: names, the form under which they are filed, roles, in their order. */
import type { Contributor } from '#book';
import { useBook } from '../../state/index.ts';
import { Button, Chooser, IconButton, TextInput, texts } from '../../ui/index.ts';
import { useSetMetadata } from './useSetMetadata.ts';

const words = texts.press.book;

/** MARC relator codes (the list of the Library of Congress) that books name most. */
type RoleCode = keyof typeof words.roles;
const ROLES = Object.keys(words.roles) as RoleCode[];

export function Contributors() {
  const { contributors } = useBook().metadata;
  const set = useSetMetadata();
  const put = (at: number, contributor: Contributor | null): void => {
    const next = contributors.flatMap((each, index) => (index === at ? (contributor ?? []) : each));
    set({ contributors: next }, `contributor ${at}`);
  };
  const add = (): void => {
    const role = contributors.length === 0 ? 'aut' : 'ctb';
    set({ contributors: [...contributors, { name: '', fileAs: null, role }] }, `contributor ${contributors.length}`);
  };
  return (
    <fieldset className="contributors">
      <legend>{words.contributors}</legend>
      {contributors.map((contributor, at) => (
        // Contributors are known by their place alone: two may have the same name.
        // biome-ignore lint/suspicious/noArrayIndexKey: the place is the identity
        <OneContributor key={at} at={at} contributor={contributor} onChange={(next) => put(at, next)} />
      ))}
      <Button icon="add" onPress={add}>
        {words.addContributor}
      </Button>
    </fieldset>
  );
}

interface OneContributorProps {
  readonly at: number;
  readonly contributor: Contributor;
  /** null drops the person. */
  readonly onChange: (contributor: Contributor | null) => void;
}

function OneContributor({ at, contributor, onChange }: OneContributorProps) {
  const { name, fileAs, role } = contributor;
  const options = ROLES.map((value) => ({ value: value as string, text: words.roles[value] }));
  const known = options.some((each) => each.value === role);
  return (
    // biome-ignore lint/a11y/useSemanticElements: the persons are parts of one field set
    <div role="group" className="contributor" aria-label={words.contributor(at + 1)}>
      <TextInput
        label={words.contributorName}
        value={name}
        onChange={(next) => onChange({ ...contributor, name: next })}
      />
      <Chooser
        label={words.role}
        value={role}
        options={known ? options : [...options, { value: role, text: role }]}
        onChange={(next) => onChange({ ...contributor, role: next })}
      />
      <IconButton icon="close" name={words.dropContributor(name)} onPress={() => onChange(null)} />
      <div className="contributor-file-as">
        <TextInput
          label={words.fileAs}
          value={fileAs ?? ''}
          placeholder={filedAs(name)}
          help={words.fileAsHelp}
          onChange={(next) => onChange({ ...contributor, fileAs: next === '' ? null : next })}
        />
      </div>
    </div>
  );
}

/** The surname first, as far as a name shows it: a proposal only. */
function filedAs(name: string): string {
  const parts = name.trim().split(/\s+/);
  const last = parts.pop() ?? '';
  return parts.length === 0 ? last : `${last}, ${parts.join(' ')}`;
}
