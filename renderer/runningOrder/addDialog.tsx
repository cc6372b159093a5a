/** What can be added to the running order: all kinds in groups, each with a line on what belongs there. */
import { useRef } from 'react';
import {
  Dialog as AriaDialog,
  Autocomplete,
  Header,
  Heading,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  ListBoxSection,
  Modal,
  ModalOverlay,
  SearchField,
} from 'react-aria-components';
import { isSectionKind, type Matter, matterOf, SECTION_KINDS, type SectionKind } from '#book';
import { reachable, texts } from '../ui/index.ts';

const words = texts.order;

export interface AddDialogProps {
  readonly onAdd: (kind: SectionKind) => void;
  readonly onClose: () => void;
}

const GROUPS: readonly (Matter | 'any')[] = ['body', 'front', 'back', 'any'];

type Group = (typeof GROUPS)[number];

function kindsOf(group: Group): readonly SectionKind[] {
  return SECTION_KINDS.filter((kind) => (matterOf(kind) ?? 'any') === group);
}

function searched(kind: SectionKind): string {
  return `${words.kinds[kind]} ${words.kindLines[kind]}`;
}

function matches(text: string, typed: string): boolean {
  return text.toLowerCase().includes(typed.trim().toLowerCase());
}

export function AddDialog({ onAdd, onClose }: AddDialogProps) {
  const done = useRef(false);
  const add = (kind: SectionKind): void => {
    if (done.current) return;
    done.current = true;
    onClose();
    onAdd(kind);
  };
  return (
    <ModalOverlay isOpen isDismissable className="veil" onOpenChange={(open) => !open && onClose()}>
      <Modal className="dialog-box">
        <AriaDialog className="dialog add-section">
          <Heading slot="title">{words.addTitle}</Heading>
          <Autocomplete filter={matches}>
            <SearchField
              autoFocus
              onSubmit={(typed) => {
                const first = GROUPS.flatMap(kindsOf).find((kind) => matches(searched(kind), typed));
                if (first) add(first);
              }}
            >
              <Label className="unseen">{words.addFind}</Label>
              <Input className="input" placeholder={words.addFind} />
            </SearchField>
            <ListBox
              ref={reachable}
              className="menu add-section-kinds"
              aria-label={words.addTitle}
              onAction={(key) => {
                if (isSectionKind(key)) add(key);
              }}
            >
              {GROUPS.map((group) => (
                <ListBoxSection key={group}>
                  <Header className="menu-header">{words.addWhere[group]}</Header>
                  {kindsOf(group).map((kind) => (
                    <ListBoxItem key={kind} id={kind} className="menu-item add-section-kind" textValue={searched(kind)}>
                      <span>{words.kinds[kind]}</span> <span className="quiet">{words.kindLines[kind]}</span>
                    </ListBoxItem>
                  ))}
                </ListBoxSection>
              ))}
            </ListBox>
          </Autocomplete>
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  );
}
