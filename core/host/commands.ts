/**
 * Every command of the window, as data: its name for people and its keys. The window's menu, the native menu, the list of
 * commands and the key bindings all read this table; what a command does stands in the window.
 */

export interface CommandText {
  readonly text: string;
  /** `Mod` is Cmd on a Mac and Ctrl elsewhere; null for a command without keys of its own. */
  readonly keys: string | null;
  /** How menus show that it holds now: `tick` by itself, `one` as one of its block of the menu; absent where it only acts. */
  readonly mark?: 'tick' | 'one';
}

const command = (text: string, keys: string | null = null): CommandText => ({ text, keys });
const tick = (text: string, keys: string | null = null): CommandText => ({ text, keys, mark: 'tick' });
const one = (text: string, keys: string | null = null): CommandText => ({ text, keys, mark: 'one' });

export const COMMANDS = {
  'book.import': command('Bring in a manuscript…', 'Shift+Mod+I'),
  'book.correct': command('Bring in a corrected manuscript…'),
  'book.open': command('Open a book…', 'Mod+O'),
  'book.demo': command('Look at the demo'),
  'book.save': command('Save', 'Mod+S'),
  'book.saveAs': command('Save under another name…', 'Shift+Mod+S'),
  'book.backups': command('Earlier states…'),
  'book.close': command('Close the book', 'Mod+W'),
  'book.details': command('Book details…', 'Shift+Mod+D'),
  'press.make': command('Make the editions', 'Shift+Mod+E'),
  'press.addPrint': command('Add a print edition'),
  'press.addEbook': command('Add an ebook edition'),

  'edit.undo': command('Undo', 'Mod+Z'),
  'edit.redo': command('Redo', 'Shift+Mod+Z'),
  'edit.pastePlain': command('Paste as plain text', 'Shift+Mod+V'),
  'edit.find': command('Find in this section', 'Mod+F'),
  'edit.findInBook': command('Find in the whole book', 'Shift+Mod+F'),

  'text.emphasis': command('Italic', 'Mod+I'),
  'text.strong': command('Bold', 'Mod+B'),
  'text.smallCaps': command('Small capitals', 'Shift+Mod+K'),
  'text.superscript': command('Superscript', 'Mod+.'),
  'text.subscript': command('Subscript', 'Mod+,'),
  'text.strikethrough': command('Struck through'),
  'text.link': command('Link…'),
  'text.language': command('Passage in another language…'),
  'text.note': command('Note', 'Alt+Mod+N'),
  'text.sceneBreak': command('Scene break', 'Mod+Enter'),
  'text.figure': command('Figure…'),
  'text.field': command('Field…'),
  'text.paragraph': command('Paragraph', 'Alt+Mod+0'),
  'text.heading1': command('Subhead', 'Alt+Mod+1'),
  'text.heading2': command('Second subhead', 'Alt+Mod+2'),
  'text.heading3': command('Third subhead', 'Alt+Mod+3'),
  'text.quotation': command('Quotation', 'Alt+Mod+Q'),
  'text.epigraph': command('Epigraph'),
  'text.verse': command('Verse', 'Alt+Mod+V'),
  'text.letter': command('Letter', 'Alt+Mod+L'),
  'text.telegram': command('Telegram'),
  'text.message': command('Message'),
  'text.sign': command('Sign'),
  'text.document': command('Document'),
  'text.bulletList': command('List'),
  'text.orderedList': command('Numbered list'),
  'text.table': command('Table'),
  'text.editions': command('Only in some editions…'),
  'text.remarks': command('Dismiss all remarks of the import'),

  'order.add': command('Add a section…', 'Shift+Mod+A'),
  'order.previous': command('Previous section', 'Mod+['),
  'order.next': command('Next section', 'Mod+]'),
  'order.moveUp': command('Move up', 'Alt+ArrowUp'),
  'order.moveDown': command('Move down', 'Alt+ArrowDown'),
  'order.split': command('Split at the cursor', 'Shift+Mod+Enter'),
  'order.join': command('Join with the next'),
  'order.rename': command('Rename', 'F2'),
  'order.duplicate': command('Duplicate'),
  'order.drop': command('Drop'),

  'view.copy': one('Copy', 'Mod+1'),
  'view.proof': one('Proof', 'Mod+2'),
  'view.press': one('Press', 'Mod+3'),
  'view.slip': tick('Slip beside the text', 'Shift+Mod+P'),
  'view.findings': command('Findings', 'Shift+Mod+L'),
  'view.design': tick('Design', 'Shift+Mod+G'),
  'view.panel': command('Next panel', 'F6'),
  'proof.previous': command('Previous spread', 'Alt+PageUp'),
  'proof.next': command('Next spread', 'Alt+PageDown'),
  'proof.goTo': command('Go to folio', 'Mod+J'),
  'proof.facing': tick('Facing pages'),
  'proof.fit': tick('Whole spread', 'Mod+0'),
  'proof.width': tick('Full width', 'Mod+9'),
  'proof.actual': tick('Printed size', 'Mod+8'),
  'proof.zoomIn': command('Larger pages', 'Alt+Mod+='),
  'proof.zoomOut': command('Smaller pages', 'Alt+Mod+-'),
  'proof.trim': tick('Trim and bleed'),
  'proof.margins': tick('Margins'),
  'proof.grid': tick('Baseline grid'),
  'proof.changed': tick('Changed since the last export'),
  'proof.nextChanged': command('Next changed page', 'Alt+Mod+J'),
  'proof.together': tick('Keep both proofs together'),
  'view.asSystem': one('Light or dark as the system'),
  'view.light': one('Light'),
  'view.dark': one('Dark'),
  'view.larger': command('Larger interface text', 'Mod+='),
  'view.smaller': command('Smaller interface text', 'Mod+-'),
  'view.settings': command('Settings…', 'Alt+Mod+S'),

  'help.commands': command('All commands', 'Mod+K'),
  'help.about': command('About Reglet'),
} as const satisfies Readonly<Record<string, CommandText>>;

export type CommandId = keyof typeof COMMANDS;

export function isCommandId(value: unknown): value is CommandId {
  return typeof value === 'string' && Object.hasOwn(COMMANDS, value);
}

/** What the menus show of the commands as things stand now. */
export interface MenuState {
  /** Commands that can't be carried out. */
  readonly disabled: readonly CommandId[];
  /** Commands with a mark that hold. */
  readonly on: readonly CommandId[];
}
