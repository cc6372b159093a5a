/** What was made so far: date, files, pages, findings; each file can be opened or shown in its folder. */
import type { ExportedFile, ExportRecord } from '#host';
import { useBook, useStore, useWorkbench } from '../state/index.ts';
import { Button, nameOf, texts } from '../ui/index.ts';
import { foundText } from './made.ts';
import type { Pressing } from './pressing.ts';

const words = texts.press;
const DAY = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' });

export function ExportHistory({ pressing }: { readonly pressing: Pressing }) {
  const { press } = useWorkbench();
  const history = useStore(press, (state) => state.history);
  return (
    <section className="press-history" aria-label={words.history.title}>
      <h3>{words.history.title}</h3>
      {history.length === 0 && <p className="quiet">{words.history.none}</p>}
      <ul>
        {history.map((record) => (
          <Made key={record.job} record={record} pressing={pressing} />
        ))}
      </ul>
    </section>
  );
}

interface MadeProps {
  readonly record: ExportRecord;
  readonly pressing: Pressing;
}

function Made({ record, pressing }: MadeProps) {
  return (
    <li className="made">
      <p className="made-when figures">
        {DAY.format(record.at)}
        <span className="quiet"> {foundText(record.findings)}</span>
      </p>
      <ul>
        {record.files.map((file) => (
          <MadeFile key={file.path} file={file} pressing={pressing} />
        ))}
      </ul>
    </li>
  );
}

function MadeFile({ file, pressing }: { readonly file: ExportedFile; readonly pressing: Pressing }) {
  const { editions } = useBook();
  const name = nameOf(file.path);
  const edition = editions.find((each) => each.id === file.edition)?.name ?? file.edition;
  const facts = [edition, file.pages === null ? '' : texts.common.pages(file.pages), words.history.size(file.bytes)];
  return (
    <li className="made-file">
      <span className="made-name">{name}</span>
      <span className="quiet figures">{facts.filter(Boolean).join(' · ')}</span>
      <Button look="bare" aria-label={words.history.openNamed(name)} onPress={() => void pressing.open(file.path)}>
        {words.open}
      </Button>
      <Button look="bare" aria-label={words.history.showNamed(name)} onPress={() => void pressing.show(file.path)}>
        {words.show}
      </Button>
    </li>
  );
}
