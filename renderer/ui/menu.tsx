/** Menus of commands and of choices. In: what may be chosen; out: a menu under a control, with keys shown. */
import type { ReactNode } from 'react';
import { Header, Menu, MenuItem, MenuSection, MenuTrigger, Popover, Separator } from 'react-aria-components';

export interface MenuChoice {
  readonly id: string;
  readonly text: string;
  readonly keys?: string | null;
  readonly disabled?: boolean;
  /** Whether it is what holds now; undefined where nothing is chosen. */
  readonly chosen?: boolean;
  readonly run: () => void;
}

/** A rule between groups, with or without words. */
export interface MenuBlock {
  readonly heading?: string;
  readonly choices: readonly MenuChoice[];
}

export interface DropMenuProps {
  /** The control that opens it. */
  readonly children: ReactNode;
  readonly label: string;
  readonly blocks: readonly MenuBlock[];
}

export function DropMenu({ children, label, blocks }: DropMenuProps) {
  return (
    <MenuTrigger>
      {children}
      <Popover className="popover">
        <MenuList label={label} blocks={blocks} />
      </Popover>
    </MenuTrigger>
  );
}

/** The menu alone, for a popover that stands elsewhere. */
export function MenuList({ label, blocks }: Omit<DropMenuProps, 'children'>) {
  const choices = blocks.flatMap((block) => block.choices);
  return (
    <Menu
      className="menu"
      aria-label={label}
      autoFocus="first"
      disabledKeys={choices.filter((each) => each.disabled).map((each) => each.id)}
      onAction={(key) => choices.find((each) => each.id === key)?.run()}
    >
      {blocks.flatMap((block) => [
        block === blocks[0] ? null : <Separator key={`before ${keyOf(block)}`} className="menu-rule" />,
        <Block key={keyOf(block)} block={block} label={label} />,
      ])}
    </Menu>
  );
}

function keyOf({ choices: [first] }: MenuBlock): string {
  return first?.id ?? '';
}

/** Where one of the choices holds now, they are radio items for those who don't see the mark. */
function Block({ block, label }: { readonly block: MenuBlock; readonly label: string }) {
  const chosen = block.choices.filter((each) => each.chosen).map((each) => each.id);
  const isChoice = block.choices.some((each) => each.chosen !== undefined);
  return (
    <MenuSection aria-label={block.heading ?? label} selectionMode={isChoice ? 'single' : 'none'} selectedKeys={chosen}>
      {block.heading !== undefined && <Header className="menu-header">{block.heading}</Header>}
      {block.choices.map((choice) => (
        <MenuItem key={choice.id} id={choice.id} className="menu-item" textValue={choice.text}>
          <span className="text">{choice.text}</span>
          {choice.keys && <span className="keys">{choice.keys}</span>}
        </MenuItem>
      ))}
    </MenuSection>
  );
}
