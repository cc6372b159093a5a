/** What opens from everywhere while a book is open: its details; and the commands of the press. */
import { useMemo } from 'react';
import { usePlace, useWorkbench } from '../state/index.ts';
import { useDeeds, useTools } from '../ui/index.ts';
import { DetailsDrawer } from './details/detailsDrawer.tsx';
import { addedEdition } from './editions.ts';
import { Pressing } from './pressing.ts';
import './press.css';

export function Drawers() {
  const workbench = useWorkbench();
  const tools = useTools();
  const { books, place } = workbench;
  const pressing = useMemo(() => new Pressing(workbench, tools), [workbench, tools]);
  const details = usePlace((state) => state.open.has('details'));
  const add = (kind: 'print' | 'ebook') => () => {
    const outcome = books.apply(addedEdition(books.current.book, kind));
    if (outcome.ok) place.goToDesk('press');
    else tools.problem(outcome.problem);
  };
  useDeeds(tools.commands, {
    'press.make': () => {
      place.goToDesk('press');
      void pressing.makeAll();
    },
    'press.addPrint': add('print'),
    'press.addEbook': add('ebook'),
  });
  return details ? <DetailsDrawer onClose={() => place.toggle('details', false)} /> : null;
}
