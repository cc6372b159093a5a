/** Every command with its keys, found by typing. In: words; out: the command carried out. */
import { useRef, useState } from 'react';
import {
  Autocomplete,
  Dialog,
  Input,
  Label,
  Menu,
  MenuItem,
  Modal,
  ModalOverlay,
  SearchField,
} from 'react-aria-components';
import { COMMANDS, type CommandId, MENU } from '#host';
import { reachable, texts, useTools } from '../ui/index.ts';

const words = texts.frame;

interface Listed {
  readonly id: CommandId;
  readonly text: string;
  readonly group: string;
  readonly keys: string | null;
}

export function CommandList({ onClose }: { readonly onClose: () => void }) {
  const { commands, keys } = useTools();
  const [all] = useState(() => listed().filter((each) => commands.isEnabled(each.id)));
  const done = useRef(false);
  const run = (id: CommandId): void => {
    if (done.current) return;
    done.current = true;
    onClose();
    // The dialog gives the focus back first, so that the command finds the page as it was.
    requestAnimationFrame(() => requestAnimationFrame(() => commands.run(id)));
  };
  return (
    <ModalOverlay isOpen isDismissable className="veil high" onOpenChange={(open) => !open && onClose()}>
      <Modal className="dialog-box">
        <Dialog className="command-list" aria-label={words.commands}>
          <Autocomplete filter={hasWords}>
            <SearchField
              autoFocus
              className="command-search"
              onSubmit={(typed) => {
                const first = all.find((each) => hasWords(searched(each), typed));
                if (first) run(first.id);
              }}
            >
              <Label className="unseen">{words.commandsFind}</Label>
              <Input className="input" placeholder={words.commandsFind} />
            </SearchField>
            <Menu
              ref={reachable}
              className="menu"
              aria-label={words.commands}
              items={all}
              onAction={(key) => run(key as CommandId)}
              renderEmptyState={() => <p className="quiet command-none">{words.commandsNone}</p>}
            >
              {(each) => (
                <MenuItem id={each.id} className="menu-item" textValue={searched(each)}>
                  <span className="text">
                    {each.text}
                    {commands.isOn(each.id) && <span className="quiet"> {words.commandOn}</span>}
                  </span>
                  <span className="quiet">{each.group}</span>
                  <span className="keys command-keys">{keys(each.keys)}</span>
                </MenuItem>
              )}
            </Menu>
          </Autocomplete>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

/** The words by which a command is found. */
function searched({ text, group }: Listed): string {
  return `${text} ${group}`;
}

function listed(): readonly Listed[] {
  return MENU.flatMap(({ text: group, items }) =>
    items.flatMap((item) => (item.kind === 'command' ? [{ id: item.command, group, ...COMMANDS[item.command] }] : [])),
  );
}

/** Whether a text has all the words that were typed, or their beginnings, in any order. */
export function hasWords(text: string, typed: string): boolean {
  const have = text.toLowerCase().split(/\s+/);
  return typed
    .toLowerCase()
    .split(/\s+/)
    .every((word) => word === '' || have.some((each) => each.startsWith(word)));
}
