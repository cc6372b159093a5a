/** The menu as data, for the native menu and the one on the page: groups of commands, and what the system does itself. */
import type { CommandId } from './commands.ts';

export type MenuItem =
  | { readonly kind: 'command'; readonly command: CommandId }
  /** Something that the system or the browser does on its own. */
  | { readonly kind: 'role'; readonly role: 'cut' | 'copy' | 'paste' | 'selectAll' }
  | { readonly kind: 'rule' };

export interface MenuGroup {
  readonly id: string;
  readonly text: string;
  readonly items: readonly MenuItem[];
}

const RULE: MenuItem = { kind: 'rule' };

function commands(...ids: readonly CommandId[]): readonly MenuItem[] {
  return ids.map((command) => ({ kind: 'command', command }));
}

function roles(...names: readonly Extract<MenuItem, { kind: 'role' }>['role'][]): readonly MenuItem[] {
  return names.map((role) => ({ kind: 'role', role }));
}

export const MENU: readonly MenuGroup[] = [
  {
    id: 'book',
    text: 'Book',
    items: [
      ...commands('book.import', 'book.correct', 'book.open', 'book.demo'),
      RULE,
      ...commands('book.save', 'book.saveAs', 'book.backups'),
      RULE,
      ...commands('book.details', 'press.make', 'press.addPrint', 'press.addEbook'),
      RULE,
      ...commands('book.close'),
    ],
  },
  {
    id: 'edit',
    text: 'Edit',
    items: [
      ...commands('edit.undo', 'edit.redo'),
      RULE,
      ...roles('cut', 'copy', 'paste'),
      ...commands('edit.pastePlain'),
      ...roles('selectAll'),
      RULE,
      ...commands('edit.find', 'edit.findInBook'),
    ],
  },
  {
    id: 'text',
    text: 'Text',
    items: [
      ...commands('text.emphasis', 'text.strong', 'text.smallCaps', 'text.superscript', 'text.subscript'),
      ...commands('text.strikethrough', 'text.link', 'text.language'),
      RULE,
      ...commands('text.sceneBreak', 'text.note', 'text.figure', 'text.field'),
      RULE,
      ...commands('text.paragraph', 'text.heading1', 'text.heading2', 'text.heading3'),
      ...commands('text.quotation', 'text.epigraph', 'text.verse'),
      ...commands('text.letter', 'text.telegram', 'text.message', 'text.sign', 'text.document'),
      ...commands('text.bulletList', 'text.orderedList', 'text.table'),
      RULE,
      ...commands('text.editions', 'text.remarks'),
    ],
  },
  {
    id: 'order',
    text: 'Order',
    items: [
      ...commands('order.add'),
      RULE,
      ...commands('order.previous', 'order.next'),
      RULE,
      ...commands('order.moveUp', 'order.moveDown'),
      RULE,
      ...commands('order.split', 'order.join', 'order.rename', 'order.duplicate', 'order.drop'),
    ],
  },
  {
    id: 'view',
    text: 'View',
    items: [
      ...commands('view.copy', 'view.proof', 'view.press'),
      RULE,
      ...commands('view.slip', 'view.findings', 'view.design', 'view.panel'),
      RULE,
      ...commands('proof.previous', 'proof.next', 'proof.goTo', 'proof.nextChanged'),
      RULE,
      ...commands('proof.fit', 'proof.width', 'proof.actual', 'proof.zoomIn', 'proof.zoomOut'),
      RULE,
      ...commands('proof.facing', 'proof.trim', 'proof.margins', 'proof.grid', 'proof.changed', 'proof.together'),
      RULE,
      ...commands('view.asSystem', 'view.light', 'view.dark'),
      RULE,
      ...commands('view.larger', 'view.smaller', 'view.settings'),
    ],
  },
  { id: 'help', text: 'Help', items: commands('help.commands', 'help.about') },
];
