/** The menu on the page, where the system draws none: all groups under one button, each command with its keys. */
import {
  Button as AriaButton,
  Menu,
  MenuItem,
  MenuSection,
  MenuTrigger,
  Popover,
  Separator,
  SubmenuTrigger,
} from 'react-aria-components';

import { COMMANDS, type CommandId, type CommandText, type MenuItem as Item, MENU, type MenuGroup } from '#host';
import { Icon, type Tools, texts, useTools } from '../ui/index.ts';

export function PageMenu() {
  const tools = useTools();
  return (
    <MenuTrigger>
      <AriaButton className="button bare" aria-label={texts.frame.menu}>
        <Icon name="menu" />
      </AriaButton>
      <Popover className="popover" placement="bottom start">
        <Menu className="menu" aria-label={texts.frame.menu}>
          {MENU.map((group) => (
            <SubmenuTrigger key={group.id}>
              <MenuItem className="menu-item" textValue={group.text}>
                <span className="text">{group.text}</span>
                <Icon name="right" />
              </MenuItem>
              <Popover className="popover">
                <GroupMenu group={group} tools={tools} />
              </Popover>
            </SubmenuTrigger>
          ))}
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}

function GroupMenu({ group, tools }: { readonly group: MenuGroup; readonly tools: Tools }) {
  const { commands } = tools;
  const ids = group.items.flatMap((item) => (item.kind === 'command' ? [item.command] : []));
  return (
    <Menu
      className="menu"
      aria-label={texts.frame.menuGroup(group.text)}
      disabledKeys={ids.filter((id) => !commands.isEnabled(id))}
      onAction={(key) => commands.run(key as CommandId)}
    >
      {partsOf(group.items).map((part, at) => [
        at > 0 && part.ruled ? <Separator key={`before ${part.ids[0]}`} className="menu-rule" /> : null,
        <MenuSection
          key={part.ids[0]}
          aria-label={group.text}
          selectionMode={part.mark === null ? 'none' : MODES[part.mark]}
          selectedKeys={part.ids.filter((id) => commands.isOn(id))}
        >
          {part.ids.map((id) => (
            <MenuItem key={id} id={id} className="menu-item" textValue={COMMANDS[id].text} shouldCloseOnSelect>
              <span className="text">{COMMANDS[id].text}</span>
              {COMMANDS[id].keys !== null && <span className="keys">{tools.keys(COMMANDS[id].keys)}</span>}
            </MenuItem>
          ))}
        </MenuSection>,
      ])}
    </Menu>
  );
}

/** Marks as the library of the menu calls them: they become check boxes and radio items. */
const MODES = { tick: 'multiple', one: 'single' } as const;

interface Part {
  readonly ids: CommandId[];
  readonly mark: Mark | null;
  /** Whether a rule goes before it. */
  readonly ruled: boolean;
}

type Mark = keyof typeof MODES;

function markOf(id: CommandId): Mark | null {
  const { mark }: CommandText = COMMANDS[id];
  return mark ?? null;
}

/** The commands between rules, those with marks apart. What the browser does itself needs no menu on the page. */
function partsOf(items: readonly Item[]): readonly Part[] {
  const parts: Part[] = [];
  let ruled = false;
  for (const item of items) {
    if (item.kind === 'rule') ruled = true;
    if (item.kind !== 'command') continue;
    const mark = markOf(item.command);
    const last = parts.at(-1);
    if (last && !ruled && last.mark === mark) last.ids.push(item.command);
    else parts.push({ ids: [item.command], mark, ruled });
    ruled = false;
  }
  return parts;
}
