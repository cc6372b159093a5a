/**
 * The window as a screen reader has it: Chromium's accessibility tree, over its own protocol. In: a tab; out: what stands in
 * the tree, what has the focus, what was said, and what in the tree is not as it should be.
 */
import type { Page } from 'playwright-core';

export interface TreeNode {
  readonly role: string;
  readonly name: string;
  /** States and properties by ARIA's names, without the prefix. */
  readonly states: Readonly<Record<string, unknown>>;
  readonly focused: boolean;
  readonly parents: readonly string[];
}

interface RawNode {
  readonly nodeId: string;
  readonly ignored: boolean;
  readonly role?: { readonly value: string };
  readonly name?: { readonly value: string };
  readonly value?: { readonly value: unknown };
  readonly properties?: readonly { readonly name: string; readonly value: { readonly value?: unknown } }[];
  readonly childIds?: readonly string[];
}

/** All that is not ignored, in the order in which it is read. */
export async function treeOf(tab: Page): Promise<readonly TreeNode[]> {
  const line = await tab.context().newCDPSession(tab);
  const { nodes } = (await line.send('Accessibility.getFullAXTree')) as unknown as { nodes: readonly RawNode[] };
  await line.detach();
  const byId = new Map(nodes.map((node) => [node.nodeId, node]));
  const [root] = nodes;
  return root ? flattened(root, byId, []) : [];
}

function flattened(node: RawNode, byId: ReadonlyMap<string, RawNode>, parents: readonly string[]): readonly TreeNode[] {
  const role = node.role?.value ?? 'none';
  const states = Object.fromEntries((node.properties ?? []).map(({ name, value }) => [name, value.value]));
  if (node.value !== undefined) states['value'] = node.value.value;
  const own: TreeNode = {
    role,
    name: node.name?.value ?? '',
    states,
    focused: states['focused'] === true && role !== 'RootWebArea',
    parents,
  };
  const within = node.ignored ? parents : [...parents, role];
  const children = (node.childIds ?? []).flatMap((id) => {
    const child = byId.get(id);
    return child ? flattened(child, byId, within) : [];
  });
  return node.ignored ? children : [own, ...children];
}

/** What has the focus, as it is read: "button Add". */
export async function focusOf(tab: Page): Promise<string> {
  const focused = (await treeOf(tab)).filter((each) => each.focused);
  return focused.map(({ role, name }) => `${role} ${name}`).join(' in ');
}

/** The last thing that was said of what happened. */
export function saidIn(tab: Page): Promise<string> {
  return tab
    .locator('[role="status"][data-live-announcer]')
    .textContent()
    .then((said) => said ?? '');
}

/** Roles of WAI-ARIA 1.2 whose name "must" or by 4.1.2 of WCAG 2.2 has to be given: everything that is used. */
const CONTROLS = new Set([
  ...['button', 'checkbox', 'combobox', 'dialog', 'alertdialog', 'grid', 'image', 'link', 'listbox', 'menu'],
  ...['menuitem', 'menuitemcheckbox', 'menuitemradio', 'option', 'progressbar', 'radio', 'radiogroup', 'row'],
  ...['searchbox', 'separator', 'slider', 'spinbutton', 'switch', 'tab', 'tablist', 'tabpanel', 'textbox', 'toolbar'],
]);

/** States without which a role says nothing of what is chosen (WAI-ARIA 1.2, "Required States and Properties"; 4.1.2). */
const STATES: Readonly<Record<string, string>> = {
  checkbox: 'checked',
  radio: 'checked',
  switch: 'checked',
  menuitemcheckbox: 'checked',
  menuitemradio: 'checked',
  option: 'selected',
  tab: 'selected',
};

/** What is not as it should be, one line each; nothing of it may be there. */
export async function treeFaults(tab: Page): Promise<readonly string[]> {
  const tree = await treeOf(tab);
  return [...nameless(tree), ...stateless(tree), ...landmarkFaults(tree), ...focusFaults(tree)];
}

function nameless(tree: readonly TreeNode[]): readonly string[] {
  return tree
    .filter(({ role, name, states }) => CONTROLS.has(role) && name.trim() === '' && isUsed(role, states))
    .map(({ role, parents }) => `4.1.2 Name: ${role} in ${parents.slice(-3).join(' > ')} has none`);
}

/** Rules between groups of a menu are separators that nobody moves. */
function isUsed(role: string, states: TreeNode['states']): boolean {
  return role !== 'separator' || states['focusable'] === true;
}

function stateless(tree: readonly TreeNode[]): readonly string[] {
  const chosen = tree.filter(({ role, states }) => {
    const state = STATES[role];
    // Chromium leaves out what is false for options and tabs: there has to be one that is chosen instead.
    return state === 'checked' && states['checked'] === undefined;
  });
  const opening = tree.filter(({ states }) => states['hasPopup'] !== undefined && states['expanded'] === undefined);
  const tabs = tree.filter(({ role }) => role === 'tab');
  const isOneChosen = tabs.filter(({ states }) => states['selected'] === true).length === 1;
  return [
    ...chosen.map(({ role, name }) => `4.1.2 State: ${role} “${name}” does not say whether it is chosen`),
    ...opening.map(({ role, name }) => `4.1.2 State: ${role} “${name}” does not say whether it is open`),
    ...(tabs.length > 0 && !isOneChosen ? ['4.1.2 State: not one tab is chosen'] : []),
  ];
}

/** ARIA Authoring Practices, "Landmark Regions": one main, banner and contentinfo at most, all content in some landmark. */
function landmarkFaults(tree: readonly TreeNode[]): readonly string[] {
  const count = (role: string): number => tree.filter((each) => each.role === role).length;
  const isDialog = count('dialog') + count('alertdialog') > 0;
  const twice = ['main', 'banner', 'contentinfo'].filter((role) => count(role) > 1);
  return [
    ...twice.map((role) => `Landmarks: more than one ${role}`),
    ...(!isDialog && count('main') === 0 ? ['Landmarks: no main'] : []),
  ];
}

/** 2.4.3 and 2.4.7: the keyboard is always somewhere. */
function focusFaults(tree: readonly TreeNode[]): readonly string[] {
  return tree.some((each) => each.focused) ? [] : ['2.4.3 Focus: nothing has it'];
}
