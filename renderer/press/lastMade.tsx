/** When an edition was last made, what it came to, and what has changed in it since. In: an edition; out: a part of its docket. */
import type { SectionId } from '#base';
import type { Edition } from '#book';
import { nameOfRow, type SinceExport, useOutline, useStore, useWorkbench } from '../state/index.ts';
import { Button, texts } from '../ui/index.ts';
import { foundText, type MadeOnce, otherChanges, timesMade } from './made.ts';
import type { Pressing } from './pressing.ts';

const words = texts.press.history;
const DAY = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' });

/** Earlier times that are listed, and changed sections that are named. */
const EARLIER = 5;
const NAMED = 4;

interface LastMadeProps {
  readonly edition: Edition;
  readonly pressing: Pressing;
}

export function LastMade({ edition, pressing }: LastMadeProps) {
  const { press, since } = useWorkbench();
  const history = useStore(press, (state) => state.history);
  const changed = useStore(since, (state) => state.get(edition.id));
  const [last, ...earlier] = timesMade(history, edition.id);
  return (
    <section className="docket-made" aria-label={words.ofEdition(edition.name)}>
      {last ? <Once made={last} pressing={pressing} /> : <p className="quiet">{words.never}</p>}
      {last && changed && <Since since={changed} />}
      {earlier.length > 0 && (
        <details>
          <summary>{words.earlier(earlier.length)}</summary>
          {earlier.slice(0, EARLIER).map((made) => (
            <Once key={made.at} made={made} pressing={pressing} />
          ))}
        </details>
      )}
    </section>
  );
}

function Once({ made: { at, file, findings, muted }, pressing }: { made: MadeOnce; pressing: Pressing }) {
  const when = DAY.format(at);
  const pages = file.pages === null ? '' : texts.common.pages(file.pages);
  return (
    <div className="docket-once">
      <p className="figures">{words.madeAt(when)}</p>
      <p className="figures quiet">{[pages, foundText(findings, muted)].filter(Boolean).join(' · ')}</p>
      <p>
        <Button look="bare" aria-label={words.openMade(when)} onPress={() => void pressing.open(file.path)}>
          {texts.press.open}
        </Button>
        <Button look="bare" aria-label={words.showMade(when)} onPress={() => void pressing.show(file.path)}>
          {texts.press.show}
        </Button>
      </p>
    </div>
  );
}

/** What reads otherwise now: sections by name, each a way to it. */
function Since({ since: { changes } }: { readonly since: SinceExport }) {
  const rows = useOutline();
  const { place } = useWorkbench();
  const { sections } = changes;
  const other = otherChanges(changes);
  if (sections.length === 0 && other === '') return <p className="quiet">{words.unchanged}</p>;
  const nameOf = (id: SectionId): string => {
    const row = rows.find((each) => each.id === id);
    return row ? nameOfRow(row) : '';
  };
  const go = (id: SectionId): void => {
    place.goToSection(id, 'press');
    place.goToDesk('copy');
  };
  return (
    <div className="docket-since">
      {sections.length > 0 && <p>{words.changedSections(sections.length)}</p>}
      <ul>
        {sections.slice(0, NAMED).map((id) => (
          <li key={id}>
            <Button look="bare" onPress={() => go(id)}>
              {nameOf(id)}
            </Button>
          </li>
        ))}
        {sections.length > NAMED && <li className="quiet">{words.more(sections.length - NAMED)}</li>}
      </ul>
      {other !== '' && <p>{other}</p>}
    </div>
  );
}
