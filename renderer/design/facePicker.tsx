/** One family out of hundreds, each shown in its own letters, found by typing. In: groups and the choice; out: another choice. */
import { type KeyboardEvent, useMemo, useRef } from 'react';
import {
  Button,
  Collection,
  ComboBox,
  Header,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  ListBoxSection,
  ListLayout,
  Popover,
  Virtualizer,
} from 'react-aria-components';
import { useSettings } from '../state/index.ts';
import { Icon } from '../ui/index.ts';
import { faces as words } from '../ui/texts/faces.en.ts';
import type { FamilyGroup, FamilyRow } from './familyList.ts';

export interface FacePickerProps {
  readonly label: string;
  readonly groups: readonly FamilyGroup[];
  readonly value: string;
  readonly onChange: (family: string) => void;
}

/** CSS pixels at the usual text size. */
const ROW = 52;
const HEADING = 30;

export function FacePicker({ label, groups, value, onChange }: FacePickerProps) {
  const disabled = useMemo(
    () => groups.flatMap(({ rows }) => rows.filter(({ usable }) => !usable).map(({ family }) => family)),
    [groups],
  );
  const list = useOpenList();
  const zoom = useSettings().textZoom / 100;
  return (
    <ComboBox
      className="field face-picker"
      defaultItems={groups}
      value={value}
      disabledKeys={disabled}
      allowsEmptyCollection
      onOpenChange={list.onOpenChange}
      onChange={(key) => {
        if (key !== null && key !== value) onChange(String(key));
      }}
    >
      <Label>{label}</Label>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: it only keeps a key of the field inside it from going further. */}
      <span className="face-input" onKeyDownCapture={list.onKeyDownCapture} onKeyDown={list.onKeyDown}>
        <Input className="input" style={{ fontFamily: shownIn(value) }} onFocus={(event) => event.target.select()} />
        <Button className="button bare icon" aria-label={label}>
          <Icon name="down" />
        </Button>
      </span>
      <Popover className="popover face-list">
        <Virtualizer layout={ListLayout} layoutOptions={{ rowSize: ROW * zoom, headingSize: HEADING * zoom }}>
          <ListBox<FamilyGroup>
            className="menu face-menu"
            renderEmptyState={() => <p className="field-help face-none">{words.noneFound}</p>}
          >
            {(group) => (
              <ListBoxSection id={group.name}>
                <Header className="menu-header">{group.name}</Header>
                <Collection items={group.rows}>{(row) => <Row {...row} />}</Collection>
              </ListBoxSection>
            )}
          </ListBox>
        </Virtualizer>
      </Popover>
    </ComboBox>
  );
}

/** Escape closes the list, and not the panel around it as well. */
function useOpenList() {
  const open = useRef(false);
  const closing = useRef(false);
  return {
    onOpenChange: (isOpen: boolean): void => {
      open.current = isOpen;
    },
    onKeyDownCapture: ({ key }: KeyboardEvent): void => {
      closing.current = key === 'Escape' && open.current;
    },
    onKeyDown: (event: KeyboardEvent): void => {
      if (closing.current) event.stopPropagation();
    },
  };
}

function Row({ family, says }: FamilyRow) {
  return (
    <ListBoxItem className="menu-item face-item" id={family} textValue={family}>
      <span className="face-name" style={{ fontFamily: shownIn(family) }}>
        {family}
      </span>
      {says !== '' && <span className="face-says">{says}</span>}
    </ListBoxItem>
  );
}

/** A family in its own letters; characters that it lacks are shown in the interface's. */
function shownIn(family: string): string {
  return `"${family.replace(/["\\]/g, '')}", var(--book-face)`;
}
