/** Finding and replacing, in the section or in the whole book, with every place and what it would become. */
import { memo, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { SectionId } from '#base';
import { nameOfRow, useBookState, usePlace, useSteadyOutline, useWorkbench } from '../../state/index.ts';
import { Button, ChoiceRow, IconButton, TextInput, Tick, useTools } from '../../ui/index.ts';
import { editor } from '../../ui/texts/editor.en.ts';
import type { SectionEditor } from '../sectionEditor.ts';
import { markedKey, NOTHING_MARKED } from '../text/decorations.ts';
import { positionOf } from '../text/places.ts';
import { Finder } from './finder.ts';
import { type Hit, MOST_HITS, type Query, replacementOf, replacing } from './search.ts';

const texts = editor.find;

type Scope = 'section' | 'book';

/** Rows of the list that are drawn; more are counted. */
const MOST_ROWS = 300;

/** Milliseconds after the last key before the book is looked through. */
const PAUSE = 150;

export function FindBar({
  editor: open,
  section,
}: {
  readonly editor: SectionEditor | null;
  readonly section: SectionId;
}) {
  const { books, place } = useWorkbench();
  const { tell, problem } = useTools();
  const language = useBookState(({ book }) => book.metadata.language);
  const inBook = usePlace((each) => each.open.has('findInBook'));
  const scope: Scope = inBook ? 'book' : 'section';
  const [query, setQuery] = useState<Query>({ text: '', words: false, letters: false, pattern: false });
  const [replacement, setReplacement] = useState('');
  const [current, setCurrent] = useState(0);
  const { hits, trouble } = useHits(query, scope, section);
  const hit = hits[Math.min(current, hits.length - 1)] ?? null;
  useMarks(open, section, hits, hit);

  const go = (by: number): void => {
    if (hits.length === 0) return;
    const next = (current + by + hits.length) % hits.length;
    setCurrent(next);
    show(hits[next]);
  };
  const show = useCallback(
    (each: Hit | undefined): void => {
      if (each) place.goTo(each.section, { block: each.block, offset: each.from }, 'find');
    },
    [place],
  );
  const choose = useCallback(
    (at: number): void => {
      setCurrent(at);
      show(hits[at]);
    },
    [hits, show],
  );
  const replace = (some: readonly Hit[]): void => {
    const change = replacing(books.current.book, some, replacement, query.pattern);
    if (!change) return;
    const made = books.apply(change, { origin: 'find' });
    if (!made.ok) problem(made.problem);
    else if (some.length > 1) tell({ kind: 'done', text: texts.replaced(some.length) });
  };
  const close = (): void => {
    place.toggle('find', false);
    open?.view.focus();
  };
  return (
    <search
      className="find-bar"
      aria-label={texts.label}
      onKeyDown={(event) => {
        if (event.key === 'Escape') close();
        if (event.key === 'Enter' && event.target instanceof HTMLInputElement) go(event.shiftKey ? -1 : 1);
      }}
    >
      <div className="find-fields">
        <TextInput
          label={texts.find}
          value={query.text}
          onChange={(text) => {
            setQuery({ ...query, text });
            setCurrent(0);
          }}
          problem={trouble}
          help={query.pattern ? texts.patternHelp : undefined}
          lang={language}
          autoFocus
        />
        <TextInput label={texts.replace} value={replacement} onChange={setReplacement} lang={language} />
        <IconButton icon="close" name={texts.close} onPress={close} />
      </div>
      <div className="find-options">
        <ChoiceRow<Scope>
          label={texts.scope}
          value={scope}
          options={[
            { value: 'section', text: texts.inSection },
            { value: 'book', text: texts.inBook },
          ]}
          onChange={(next) => place.toggle('findInBook', next === 'book')}
        />
        <Tick text={texts.words} selected={query.words} onChange={(words) => setQuery({ ...query, words })} />
        <Tick text={texts.letters} selected={query.letters} onChange={(letters) => setQuery({ ...query, letters })} />
        <Tick text={texts.pattern} selected={query.pattern} onChange={(pattern) => setQuery({ ...query, pattern })} />
      </div>
      <div className="find-actions">
        <span role="status" className="quiet figures">
          {query.text === ''
            ? ''
            : hits.length === 0
              ? texts.hits(0)
              : texts.at(Math.min(current, hits.length - 1) + 1, hits.length)}
        </span>
        <IconButton icon="up" name={texts.previous} onPress={() => go(-1)} isDisabled={hits.length === 0} />
        <IconButton icon="down" name={texts.next} onPress={() => go(1)} isDisabled={hits.length === 0} />
        <Button onPress={() => hit && replace([hit])} isDisabled={hit === null}>
          {texts.one}
        </Button>
        <Button onPress={() => replace(hits)} isDisabled={hits.length === 0}>
          {texts.all(hits.length)}
        </Button>
      </div>
      {scope === 'book' && hits.length > 0 && (
        <HitList hits={hits} current={hit} replacement={replacement} pattern={query.pattern} onChoose={choose} />
      )}
    </search>
  );
}

interface HitListProps {
  readonly hits: readonly Hit[];
  readonly current: Hit | null;
  readonly replacement: string;
  readonly pattern: boolean;
  readonly onChoose: (at: number) => void;
}

/** Every place, with what it would become. */
const HitList = memo(function HitList({ hits, current, replacement, pattern, onChoose }: HitListProps) {
  const rows = useSteadyOutline();
  const names = useMemo(() => new Map(rows.map((row) => [row.id, nameOfRow(row)])), [rows]);
  return (
    <>
      <ol className="find-list" aria-label={texts.list}>
        {hits.slice(0, MOST_ROWS).map((hit, at) => (
          <li key={`${hit.block} ${hit.from}`}>
            <button type="button" aria-current={hit === current} onClick={() => onChoose(at)}>
              <span className="quiet">{names.get(hit.section)}</span>
              <span className="find-context">
                {hit.before.replaceAll('\ufffc', '')}
                {replacement === '' ? <mark>{hit.found[0]}</mark> : <del>{hit.found[0]}</del>}
                {replacement !== '' && <ins>{replacementOf(hit, replacement, pattern)}</ins>}
                {hit.after.replaceAll('\ufffc', '')}
              </span>
            </button>
          </li>
        ))}
      </ol>
      {hits.length > MOST_ROWS && <p className="quiet">{texts.tooMany(Math.min(MOST_ROWS, MOST_HITS))}</p>}
    </>
  );
});

/** The hits of a query in the book of the moment. What is typed in the text draws nothing here until it rests. */
function useHits(query: Query, scope: Scope, section: SectionId): { hits: readonly Hit[]; trouble: string | null } {
  const { books } = useWorkbench();
  const finder = useRef(new Finder()).current;
  const [state, setState] = useState<{ hits: readonly Hit[]; trouble: string | null }>({ hits: [], trouble: null });
  useEffect(() => {
    let asked = 0;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const look = async (): Promise<void> => {
      const mine = asked;
      const all = books.get()?.book.text.children ?? [];
      const sections = all.filter((each) => scope === 'book' || each.attrs['id'] === section);
      const found = await finder.find(query, sections);
      if (mine === asked)
        setState(found.ok ? { hits: found.value, trouble: null } : { hits: [], trouble: found.problem });
    };
    const lookSoon = (): void => {
      asked++;
      clearTimeout(timer);
      timer = setTimeout(look, PAUSE);
    };
    lookSoon();
    const deaf = books.onChange(lookSoon);
    return () => {
      asked++;
      clearTimeout(timer);
      deaf();
    };
  }, [query, scope, section, books, finder]);
  useEffect(() => () => finder.stop(), [finder]);
  return state;
}

/** Marks the hits in the text while the bar is open. */
function useMarks(open: SectionEditor | null, section: SectionId, hits: readonly Hit[], current: Hit | null): void {
  useEffect(() => {
    if (!open) return undefined;
    const { doc } = open.view.state;
    const here = hits.filter((hit) => hit.section === section);
    const stretches = here.map(({ block, from, to }) => ({
      from: positionOf(doc, { block, offset: from }) ?? 0,
      to: positionOf(doc, { block, offset: to }) ?? 0,
    }));
    const before = markedKey.getState(open.view.state) ?? NOTHING_MARKED;
    open.mark({ ...before, hits: stretches, current: current ? here.indexOf(current) : -1 });
    return () => {
      if (open.view.isDestroyed) return;
      open.mark({ ...(markedKey.getState(open.view.state) ?? NOTHING_MARKED), hits: [], current: -1 });
    };
  }, [open, section, hits, current]);
}
