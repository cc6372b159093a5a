/**
 * The running order: front matter, body with its parts, back matter. In: the outline; out: sections chosen, moved by mouse
 * and keys, added and changed.
 */
import { type KeyboardEvent, useEffect, useMemo, useState } from 'react';
import {
  DropIndicator,
  GridList,
  type ItemDropTarget,
  type Key,
  ListLayout,
  useDragAndDrop,
  Virtualizer,
} from 'react-aria-components';
import type { SectionId } from '#base';
import { type SectionRow, useBookState, usePlace, useSteadyOutline, useWorkbench } from '../state/index.ts';
import { Button, texts, useDeeds, useTools } from '../ui/index.ts';
import { AddDialog } from './addDialog.tsx';
import { OrderDeeds } from './orderDeeds.ts';
import { OrderRow } from './orderRow.tsx';
import { SectionDialog } from './sectionDialog.tsx';
import './runningOrder.css';

const words = texts.order;

/** Rows out of view are not on the page: each of them listens to pointer and keys. Pixels, until a row has been measured. */
const ROWS = { estimatedRowHeight: 34, padding: 8 };

type OpenDialog = { readonly kind: 'add' } | { readonly kind: 'section'; readonly section: SectionId } | null;

export function RunningOrder() {
  const workbench = useWorkbench();
  const tools = useTools();
  const rows = useSteadyOutline();
  const language = useBookState((state) => state.book.metadata.language);
  const editions = useBookState((state) => state.book.editions);
  const deeds = useMemo(() => new OrderDeeds(workbench, tools), [workbench, tools]);
  const [chosen, choose] = useChosen(rows);
  const [dialog, setDialog] = useState<OpenDialog>(null);
  const dragging = useOrderDrag(rows, chosen, deeds);
  const edit = (section: SectionId): void => setDialog({ kind: 'section', section });
  const [only] = chosen;

  useDeeds(tools.commands, {
    'order.add': () => setDialog({ kind: 'add' }),
    ...(only === undefined
      ? {}
      : {
          'order.moveUp': { run: () => deeds.move(chosen, -1), enabled: () => deeds.canMove(chosen, -1) },
          'order.moveDown': { run: () => deeds.move(chosen, 1), enabled: () => deeds.canMove(chosen, 1) },
          'order.rename': () => edit(only),
          'order.duplicate': () => deeds.duplicate(only),
          'order.drop': () => deeds.drop(chosen),
          'order.split': { run: () => deeds.split(only), enabled: () => deeds.canSplit(only) },
          'order.join': { run: () => deeds.join(only), enabled: () => deeds.canJoin(only) },
        }),
  });

  const press = (event: KeyboardEvent): void => {
    if (event.key === 'Delete' && chosen.size > 0) {
      event.preventDefault();
      deeds.drop(chosen);
    }
  };
  return (
    <section className="running-order" aria-label={words.title}>
      <header className="running-order-head">
        <h2>{words.title}</h2>
        <Button look="bare" icon="add" onPress={() => setDialog({ kind: 'add' })}>
          {texts.common.add}
        </Button>
      </header>
      <div className="running-order-keys" onKeyDownCapture={press}>
        {rows.length === 0 ? (
          <p className="running-order-empty quiet">{words.empty}</p>
        ) : (
          <Virtualizer layout={ListLayout} layoutOptions={ROWS}>
            <GridList
              className="running-order-list"
              aria-label={words.title}
              selectionMode="multiple"
              selectionBehavior="replace"
              disallowEmptySelection
              selectedKeys={chosen}
              onSelectionChange={(keys) => choose(keys === 'all' ? new Set(rows.map((row) => row.id)) : asIds(keys))}
              onAction={(key) => workbench.place.goToSection(String(key), 'row')}
              dragAndDropHooks={dragging}
            >
              {rows.map((row, at) => (
                <OrderRow
                  key={row.id}
                  row={row}
                  begins={row.matter !== rows[at - 1]?.matter}
                  deeds={deeds}
                  edit={edit}
                  language={language}
                  editions={editions}
                />
              ))}
            </GridList>
          </Virtualizer>
        )}
      </div>
      {dialog?.kind === 'add' && (
        <AddDialog onClose={() => setDialog(null)} onAdd={(kind) => deeds.add(kind, only ?? null)} />
      )}
      {dialog?.kind === 'section' && (
        <SectionDialog section={dialog.section} deeds={deeds} onClose={() => setDialog(null)} />
      )}
    </section>
  );
}

function asIds(keys: Iterable<Key>): ReadonlySet<SectionId> {
  return new Set([...keys].map(String));
}

/** The chosen sections: the one in view goes with them, and comes to be the choice when it is changed elsewhere. */
function useChosen(rows: readonly SectionRow[]): [ReadonlySet<SectionId>, (ids: ReadonlySet<SectionId>) => void] {
  const { place } = useWorkbench();
  const section = usePlace((state) => state.section);
  const [chosen, setChosen] = useState<ReadonlySet<SectionId>>(() => new Set(section === null ? [] : [section]));
  useEffect(() => {
    if (section !== null) setChosen((before) => (before.has(section) ? before : new Set([section])));
  }, [section]);
  const there = useMemo(() => {
    const ids = new Set(rows.map((row) => row.id));
    const kept = new Set([...chosen].filter((id) => ids.has(id)));
    return kept.size === chosen.size ? chosen : kept;
  }, [rows, chosen]);
  const choose = (ids: ReadonlySet<SectionId>): void => {
    setChosen(ids);
    const [first] = ids;
    if (ids.size === 1 && first !== undefined && first !== section) place.goToSection(first, 'order');
  };
  return [there, choose];
}

/** Dragging by mouse, touch and keyboard, with a line where the sections land. */
function useOrderDrag(rows: readonly SectionRow[], chosen: ReadonlySet<SectionId>, deeds: OrderDeeds) {
  const landBefore = ({ key, dropPosition }: ItemDropTarget): SectionId | null => {
    if (dropPosition !== 'after') return String(key);
    const at = rows.findIndex((row) => row.id === key);
    return rows[at + 1]?.id ?? null;
  };
  const { dragAndDropHooks } = useDragAndDrop({
    getItems: (keys) => [...keys].map((key) => ({ 'text/plain': nameOf(rows, String(key)) })),
    onReorder: ({ keys, target }) => {
      const moving = asIds(keys);
      deeds.land(
        [...moving].some((id) => chosen.has(id)) ? new Set([...moving, ...chosen]) : moving,
        landBefore(target),
      );
    },
    renderDropIndicator: (target) => <DropIndicator target={target} className="landing" />,
  });
  return dragAndDropHooks;
}

function nameOf(rows: readonly SectionRow[], id: SectionId): string {
  const row = rows.find((each) => each.id === id);
  return row ? row.title || row.kindName : id;
}
