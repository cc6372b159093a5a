/**
 * The designs to choose from, each shown by the first two pages of the author's own first chapter. In: the book and an
 * edition; out: one choice, and pages that follow what is adjusted.
 */
import { useEffect, useMemo, useRef, useState } from 'react';
import { Radio, RadioGroup } from 'react-aria-components';
import type { EditionId, SectionId } from '#base';
import type { Book, Edition } from '#book';
import type { DesignSettings } from '#design';
import { proofRoom } from '../proof/index.ts';
import { useBookState, useWorkbench } from '../state/index.ts';
import { design as words } from '../ui/texts/design.en.ts';
import { designsOf, isOwn } from './changes.ts';
import type { Designing } from './designing.ts';
import { Foldable } from './foldable.tsx';
import { layPages } from './specimenCanvas.ts';
import { useSpecimen } from './useSpecimen.ts';

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
  // Who has begun to adjust a design has chosen: the others fold away.
  const [isOpen, open] = useState(!isOwn({ designs }, edition.design));
  const name = all.find((each) => each.id === edition.design)?.name ?? '';
  return (
    <Foldable title={words.choose} says={name} level={3} isOpen={isOpen} onToggle={open}>
      <RadioGroup
        className="design-specimens"
        aria-label={words.choose}
        value={edition.design}
        onChange={(id) => designing.choose(id)}
      >
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
    </Foldable>
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
  const text = useMemo(() => ({ kind: 'own', section }) as const, [section]);
  const pages = useSpecimen({ key: `design ${settings.id}`, settings, edition, text });
  useEffect(() => {
    const paint = (): void => {
      const [first] = pages;
      if (!canvas.current || !first) return;
      const height = (WIDTH * first.size.height) / first.size.width;
      const laid = pages.map((page, at) => ({ page, x: at * (WIDTH + GAP), y: 0, width: WIDTH }));
      layPages(workbench, canvas.current, { width: WIDTH * 2 + GAP, height, pages: laid });
    };
    paint();
    return proofRoom(workbench).onPicture(paint);
  }, [workbench, pages]);
  return <canvas ref={canvas} className="design-pages" />;
}
