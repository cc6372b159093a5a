/** One row of the running order. In: a section; out: number, title, marks, folio, and a menu of what can be done. */
import { memo } from 'react';
import { Button as AriaButton, GridListItem, MenuTrigger, Popover } from 'react-aria-components';
import type { SectionId } from '#base';
import type { Edition } from '#book';
import { COMMANDS } from '#host';
import { nameOfRow, type SectionRow } from '../state/index.ts';
import { Icon, type MenuBlock, MenuList, texts, useTools } from '../ui/index.ts';
import type { OrderDeeds } from './orderDeeds.ts';

const words = texts.order;

export interface OrderRowProps {
  readonly row: SectionRow;
  /** Whether it is the first of its matter, whose name stands above it. */
  readonly begins: boolean;
  readonly deeds: OrderDeeds;
  readonly edit: (section: SectionId) => void;
  /** Of the book: the list listens for its rows, which are many. */
  readonly language: string;
  readonly editions: readonly Edition[];
}

/** Drawn anew when its section says something else, not with every key: a long book has hundreds of rows. */
export const OrderRow = memo(
  Row,
  (one, other) =>
    one.row === other.row &&
    one.begins === other.begins &&
    one.language === other.language &&
    one.editions === other.editions,
);

function Row({ row, begins, deeds, edit, language, editions }: OrderRowProps) {
  const name = nameOfRow(row);
  const isInPart = row.part !== null && row.kind !== 'part';
  return (
    // The list is flat, headings inside rows: the library finds no landing places in lists of several parts.
    <GridListItem id={row.id} textValue={name} aria-label={described(row, editions)} className="order-item">
      {begins && <p className="order-matter">{words.matters[row.matter]}</p>}
      <div className="order-row" data-kind={row.kind} data-in-part={isInPart || undefined}>
        <AriaButton slot="drag" className="order-grip">
          <Icon name="grip" />
        </AriaButton>
        <span className="order-number figures">{row.number}</span>
        <span className="order-title" lang={language} data-kind-name={row.title === '' || undefined}>
          {row.title || row.kindName}
        </span>
        <span className="order-marks">
          <Editions row={row} editions={editions} />
          <Findings row={row} />
        </span>
        <span className="order-folio figures">{row.folio}</span>
        <MenuTrigger>
          <AriaButton className="order-more" aria-label={words.rowMenu(name)}>
            <Icon name="more" />
          </AriaButton>
          <Popover className="popover">
            <RowMenu row={row} deeds={deeds} edit={edit} />
          </Popover>
        </MenuTrigger>
      </div>
    </GridListItem>
  );
}

/** The row in words: what the eye takes in at once has to be said. */
function described(row: SectionRow, editions: readonly Edition[]): string {
  const { editions: own, errors, warnings, notes } = row;
  const found = errors + warnings + notes;
  return [
    nameOfRow(row),
    row.folio === '' ? '' : words.onPage(row.folio),
    own === null ? '' : words.onlyIn(namesOf(editions, own)),
    found === 0 ? '' : words.findings(found),
  ]
    .filter((each) => each !== '')
    .join(', ');
}

function namesOf(editions: readonly Edition[], ids: readonly string[]): string {
  return editions
    .filter((each) => ids.includes(each.id))
    .map((each) => each.name)
    .join(', ');
}

/** Made when it opens: what can be done depends on the moment. */
function RowMenu({ row, deeds, edit }: Pick<OrderRowProps, 'row' | 'deeds' | 'edit'>) {
  return <MenuList label={words.rowMenu(nameOfRow(row))} blocks={useRowMenu(row, deeds, edit)} />;
}

/** Marks only where a section is not in every edition. */
function Editions({ row, editions }: Pick<OrderRowProps, 'row' | 'editions'>) {
  if (row.editions === null) return null;
  const own = editions.filter((each) => row.editions?.includes(each.id));
  const text = words.onlyIn(namesOf(editions, row.editions));
  return (
    <span className="order-editions" title={text}>
      {own.some((each) => each.kind === 'print') && <Icon name="print" />}
      {own.some((each) => each.kind === 'ebook') && <Icon name="ebook" />}
      <span className="unseen">{text}</span>
    </span>
  );
}

function Findings({ row: { errors, warnings, notes } }: { readonly row: SectionRow }) {
  const count = errors + warnings;
  if (count === 0) return null;
  return (
    <span className="order-findings figures" data-grave={errors > 0 || undefined} title={words.findings(count + notes)}>
      <Icon name={errors > 0 ? 'error' : 'warning'} />
      <span className="unseen">{words.findings(count + notes)}</span>
    </span>
  );
}

function useRowMenu(row: SectionRow, deeds: OrderDeeds, edit: (section: SectionId) => void): readonly MenuBlock[] {
  const { keys } = useTools();
  const { id } = row;
  const one: ReadonlySet<SectionId> = new Set([id]);
  const shown = (command: keyof typeof COMMANDS): string | null => keys(COMMANDS[command].keys);
  return [
    {
      choices: [{ id: 'edit', text: words.edit, keys: shown('order.rename'), run: () => edit(id) }],
    },
    {
      choices: [
        {
          id: 'up',
          text: words.moveUp,
          keys: shown('order.moveUp'),
          run: () => deeds.move(one, -1),
          disabled: !deeds.canMove(one, -1),
        },
        {
          id: 'down',
          text: words.moveDown,
          keys: shown('order.moveDown'),
          run: () => deeds.move(one, 1),
          disabled: !deeds.canMove(one, 1),
        },
      ],
    },
    {
      choices: [
        {
          id: 'split',
          text: words.split,
          keys: shown('order.split'),
          disabled: !deeds.canSplit(id),
          run: () => deeds.split(id),
        },
        { id: 'join', text: words.join, disabled: !deeds.canJoin(id), run: () => deeds.join(id) },
        { id: 'duplicate', text: words.duplicate, run: () => deeds.duplicate(id) },
        { id: 'drop', text: words.drop, run: () => deeds.drop(one) },
      ],
    },
  ];
}
