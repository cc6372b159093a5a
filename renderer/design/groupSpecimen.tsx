/**
 * What a group of settings sets, on a page of the author's own book as it stands in the proof; where the book has nothing of
 * the kind, or another design is in proof, on an invented one that says so.
 */
import { useEffect, useMemo, useRef } from 'react';
import type { EditionId } from '#base';
import type { DesignSettings } from '#design';
import { proofRoom } from '../proof/index.ts';
import { useBookState, useStore, useWorkbench, type Workbench } from '../state/index.ts';
import { design as words } from '../ui/texts/design.en.ts';
import { excerptOf } from './excerpt.ts';
import { inventedFor } from './invented.ts';
import type { GroupName } from './settings/groups.ts';
import { layPages } from './specimenCanvas.ts';
import { EXCERPTS, type Subject, subjectOf } from './subjects.ts';
import { useSpecimen } from './useSpecimen.ts';

export interface GroupSpecimenProps {
  readonly group: GroupName;
  readonly settings: DesignSettings;
  /** A print edition, whose trim invented pages take. */
  readonly print: EditionId;
}

export function GroupSpecimen({ group, settings, print }: GroupSpecimenProps) {
  const workbench = useWorkbench();
  const text = useBookState((state) => state.book.text);
  const own = useMemo(() => subjectOf(text, group), [text, group]);
  const isThere = useStore(
    workbench.layout,
    () => own !== null && ownExcerpt(workbench, settings, own, group) !== null,
  );
  return (
    <figure className="design-shown">
      {own && isThere ? (
        <OwnPages group={group} settings={settings} place={own} />
      ) : (
        <InventedPages group={group} settings={settings} print={print} />
      )}
      {!isThere && <figcaption className="field-help">{words.specimens.invented}</figcaption>}
    </figure>
  );
}

interface OwnProps {
  readonly group: GroupName;
  readonly settings: DesignSettings;
  readonly place: Subject;
}

/** The pages in proof, where they have that design. */
function ownExcerpt({ books, layout }: Workbench, settings: DesignSettings, place: Subject, group: GroupName) {
  const { edition, pages } = layout.get();
  const design = books.get()?.book.editions.find((each) => each.id === edition)?.design;
  return design === settings.id ? excerptOf(pages, place, EXCERPTS[group]) : null;
}

/** Follows the proof by itself: a drag costs a repainting and nothing else. */
function OwnPages({ group, settings, place }: OwnProps) {
  const workbench = useWorkbench();
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    let frame = 0;
    const paint = (): void => {
      frame = 0;
      const laying = ownExcerpt(workbench, settings, place, group);
      if (laying && canvas.current) layPages(workbench, canvas.current, laying);
    };
    const schedule = (): void => {
      if (frame === 0) frame = requestAnimationFrame(paint);
    };
    paint();
    const endings = [workbench.layout.subscribe(schedule), proofRoom(workbench).onPicture(schedule)];
    return () => {
      cancelAnimationFrame(frame);
      for (const end of endings) end();
    };
  }, [workbench, settings, place, group]);
  return <canvas ref={canvas} role="img" aria-label={words.specimens.own(words.groups[group])} />;
}

function InventedPages({ group, settings, print }: GroupSpecimenProps) {
  const workbench = useWorkbench();
  const canvas = useRef<HTMLCanvasElement>(null);
  const invented = useMemo(() => inventedFor(group), [group]);
  const pages = useSpecimen({ key: `group ${group}`, settings, edition: print, text: invented.text });
  useEffect(() => {
    const [first] = pages;
    if (!first || !canvas.current) return;
    if (first.section === null) return;
    const laying = excerptOf(pages, { section: first.section, block: invented.block }, EXCERPTS[group]);
    if (laying) layPages(workbench, canvas.current, laying);
  }, [workbench, pages, group, invented]);
  return <canvas ref={canvas} role="img" aria-label={words.specimens.inventedOf(words.groups[group])} />;
}
