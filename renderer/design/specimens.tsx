/**
 * The designs to choose from, each shown by the first two pages of the author's own first chapter. In: the book and an
 * edition; out: one choice, and pages that follow what is adjusted.
 */
import { useEffect, useMemo, useRef, useState } from 'react';
import { Label, Radio, RadioGroup } from 'react-aria-components';
import type { EditionId, SectionId } from '#base';
import type { Book, Edition } from '#book';
import type { DesignSettings } from '#design';
import type { Page } from '#page';
import { proofRoom } from '../proof/index.ts';
import { useBookState, useWorkbench, type Workbench } from '../state/index.ts';
import { design as words } from '../ui/texts/design.en.ts';
import { designsOf, isOwn, jsonOf } from './changes.ts';
import type { Designing } from './designing.ts';

export interface SpecimensProps {
  readonly edition: Edition;
  readonly designing: Designing;
}

export function Specimens({ edition, designing }: SpecimensProps) {
  // Not the book: it is another one with each key.
  const designs = useBookState((state) => state.book.designs);
  const editions = useBookState((state) => state.book.editions);
  const section = useBookState((state) => firstChapter(state.book));
  const print = edition.kind === 'print' ? edition : editions.find((each) => each.kind === 'print');
  const all = useMemo(() => designsOf({ designs }), [designs]);
  return (
    <RadioGroup className="design-specimens" value={edition.design} onChange={(id) => designing.choose(id)}>
      <Label>{words.choose}</Label>
      <p className="field-help">{print ? words.chooseHelp : words.noPages}</p>
      {all.map((settings) => (
        <Radio key={settings.id} value={settings.id} className="design-specimen" aria-label={settings.name}>
          <span className="design-specimen-name">
            <span className="design-name">{settings.name}</span>
            <span className="field-help">{isOwn({ designs }, settings.id) ? words.own : words.builtIn}</span>
          </span>
          {print && section !== null && <SpecimenPages settings={settings} edition={print.id} section={section} />}
        </Radio>
      ))}
    </RadioGroup>
  );
}

/** The first chapter, or what the author wrote first. */
function firstChapter({ text }: Book): SectionId | null {
  const chapter = text.children.find((each) => each.attrs['kind'] === 'chapter') ?? text.children[0];
  return (chapter?.attrs['id'] as SectionId | undefined) ?? null;
}

interface PagesProps {
  readonly settings: DesignSettings;
  readonly edition: EditionId;
  readonly section: SectionId;
}

/** CSS pixels of a page's width, and between two pages. */
const WIDTH = 152;
const GAP = 6;

function SpecimenPages({ settings, edition, section }: PagesProps) {
  const workbench = useWorkbench();
  const canvas = useRef<HTMLCanvasElement>(null);
  const pages = useSpecimen(workbench, { settings, edition, section });
  useEffect(() => {
    const paint = (): void => {
      if (canvas.current) paintPages(workbench, canvas.current, pages);
    };
    paint();
    return proofRoom(workbench).onPicture(paint);
  }, [workbench, pages]);
  return <canvas ref={canvas} className="design-pages" />;
}

/** Milliseconds that settings rest before their specimen is set anew: the proof goes first. */
const REST = 120;

function useSpecimen({ link }: Workbench, { settings, edition, section }: PagesProps): readonly Page[] {
  const [pages, setPages] = useState<readonly Page[]>([]);
  useEffect(() => {
    const end = link.listen((reply) => {
      if (reply.kind === 'specimen' && reply.design === settings.id) setPages(reply.pages);
    });
    const ask = (): void =>
      link.worker?.specimen({ edition, design: settings.id, settings: jsonOf(settings), section });
    const timer = setTimeout(ask, REST);
    return () => {
      clearTimeout(timer);
      end();
    };
  }, [link, settings, edition, section]);
  return pages;
}

function paintPages(workbench: Workbench, canvas: HTMLCanvasElement, pages: readonly Page[]): void {
  const [first] = pages;
  const context = canvas.getContext('2d');
  if (!first || !context) return;
  const density = window.devicePixelRatio;
  const scale = (WIDTH * density) / first.size.width;
  const height = first.size.height * scale;
  canvas.width = Math.round((WIDTH * 2 + GAP) * density);
  canvas.height = Math.round(height);
  for (const [at, page] of pages.entries()) {
    const x = Math.round(at * (WIDTH + GAP) * density);
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.fillStyle = PAPER;
    context.fillRect(x, 0, WIDTH * density, height);
    proofRoom(workbench).leafPainter.paint(context, page, { x, y: 0, scale });
  }
}

/** Paper is paper in the dark too. */
const PAPER = '#fffdf8';
