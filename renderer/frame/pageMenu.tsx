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

import { COMMANDS, type CommandId, type MenuItem as Item, MENU, type MenuGroup } from '#host';
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
        at > 0 ? <Separator key={`before ${part[0]}`} className="menu-rule" /> : null,
        <MenuSection key={part[0]} aria-label={group.text}>
          {part.map((id) => (
            <MenuItem key={id} id={id} className="menu-item" textValue={COMMANDS[id].text}>
              <span className="text">{COMMANDS[id].text}</span>
              {COMMANDS[id].keys !== null && <span className="keys">{tools.keys(COMMANDS[id].keys)}</span>}
            </MenuItem>
          ))}
        </MenuSection>,
      ])}
    </Menu>
  );
}

/** The commands between rules. What the browser does itself needs no menu on the page. */
function partsOf(items: readonly Item[]): readonly (readonly CommandId[])[] {
  const parts: CommandId[][] = [[]];
  for (const item of items) {
    if (item.kind === 'rule') parts.push([]);
    else if (item.kind === 'command') parts.at(-1)?.push(item.command);
  }
  return parts.filter((part) => part.length > 0);
}
