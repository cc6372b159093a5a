/** Which edition is in proof, where there are several of its kind. */
import { useBook, usePlace, useWorkbench } from '../state/index.ts';
import { Button, DropMenu } from '../ui/index.ts';
import { proof as texts } from '../ui/texts/proof.en.ts';

export function EditionMenu({ kind }: { readonly kind: 'print' | 'ebook' }) {
  const { place } = useWorkbench();
  const editions = useBook().editions.filter((each) => each.kind === kind);
  const shown = usePlace((state) => (kind === 'print' ? state.printEdition : state.ebookEdition));
  const current = editions.find((each) => each.id === shown);
  if (editions.length < 2 || !current) return null;
  const choices = editions.map(({ id, name }) => ({
    id,
    text: name,
    chosen: id === shown,
    run: () => place.showEdition(kind, id),
  }));
  return (
    <DropMenu label={texts.edition} blocks={[{ choices }]}>
      <Button icon="down">{current.name}</Button>
    </DropMenu>
  );
}
