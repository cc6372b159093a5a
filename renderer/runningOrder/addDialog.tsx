/** What can be added to the running order: all kinds in groups, each with a line on what belongs there. */
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

export function AddDialog({ onAdd, onClose }: AddDialogProps) {
  return (
    <ModalOverlay isOpen isDismissable className="veil" onOpenChange={(open) => !open && onClose()}>
      <Modal className="dialog-box">
        <AriaDialog className="dialog add-section">
          <Heading slot="title">{words.addTitle}</Heading>
          <Autocomplete filter={(text, typed) => text.toLowerCase().includes(typed.trim().toLowerCase())}>
            <SearchField autoFocus aria-label={words.addFind}>
              <Label className="unseen">{words.addFind}</Label>
              <Input className="input" placeholder={words.addFind} />
            </SearchField>
            <ListBox
              ref={reachable}
              className="menu add-section-kinds"
              aria-label={words.addTitle}
              onAction={(key) => {
                onClose();
                if (isSectionKind(key)) onAdd(key);
              }}
            >
              {GROUPS.map((group) => (
                <ListBoxSection key={group}>
                  <Header className="menu-header">{words.addWhere[group]}</Header>
                  {SECTION_KINDS.filter((kind) => (matterOf(kind) ?? 'any') === group).map((kind) => (
                    <ListBoxItem
                      key={kind}
                      id={kind}
                      className="menu-item add-section-kind"
                      textValue={`${words.kinds[kind]} ${words.kindLines[kind]}`}
                    >
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
