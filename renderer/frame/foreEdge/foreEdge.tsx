/**
 * The fore-edge of the open book: overview, navigation and progress. A canvas for the eye, a list of sections for screen
 * readers and keys; both go to the same places.
 */
import {
  memo,
  type PointerEvent,
  useCallback,
  useDeferredValue,
  useEffect,
  useMemo,
  useRef,
  useState,
  useSyncExternalStore,
} from 'react';
import { ListBox, ListBoxItem } from 'react-aria-components';
import type { SectionId } from '#base';
import { nameOfRow, type SectionRow, useLately, usePlace, useSteadyOutline, useWorkbench } from '../../state/index.ts';
import { texts } from '../../ui/index.ts';
import { type Band, bandAt, bandsOf, shareInSection } from './bands.ts';
import { type EdgeColours, paintForeEdge } from './paint.ts';

const words = texts.frame.foreEdge;

export function ForeEdge() {
  const rows = useSteadyOutline();
  const section = usePlace((place) => place.section);
  const { place } = useWorkbench();
  const [hovered, setHovered] = useState<SectionId | null>(null);
  const bands = useMemo(() => bandsOf(rows), [rows]);
  const go = useCallback((id: SectionId): void => place.goToSection(id, 'foreEdge'), [place]);
  // The lines are as many as sections and seen by nobody: they are drawn when everything else has been.
  const [laterRows, laterSection] = [useDeferredValue(rows), useDeferredValue(section)];
  const tip = rows.find((row) => row.id === hovered);
  const tipBand = bands.find((band) => band.section === hovered);
  return (
    <nav className="fore-edge" aria-label={words.region}>
      <Edge bands={bands} section={section} hovered={hovered} onHover={setHovered} onGo={go} />
      <SectionList rows={laterRows} section={laterSection} onGo={go} />
      {tip && tipBand && (
        <div
          className="fore-edge-tip"
          style={{ top: `${((tipBand.from + tipBand.to) / 2) * 100}%` }}
          aria-hidden="true"
        >
          {nameOfRow(tip)}
          {tip.folio !== '' && <span className="quiet figures"> {words.folio(tip.folio)}</span>}
        </div>
      )}
    </nav>
  );
}

interface EdgeProps {
  readonly bands: readonly Band[];
  readonly section: SectionId | null;
  readonly hovered: SectionId | null;
  readonly onHover: (section: SectionId | null) => void;
  readonly onGo: (section: SectionId) => void;
}

function Edge({ bands, section, hovered, onHover, onGo }: EdgeProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const shade = useShade();
  const size = useSize(canvas);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the colours come from the page, which light, dark and contrast change
  useEffect(() => {
    const element = canvas.current;
    const context = element?.getContext('2d');
    if (!element || !context || size.width === 0) return;
    const dense = devicePixelRatio;
    element.width = Math.round(size.width * dense);
    element.height = Math.round(size.height * dense);
    context.setTransform(dense, 0, 0, dense, 0, 0);
    const named = (id: SectionId | null) => bands.find((band) => band.section === id) ?? null;
    const scene = { bands, current: named(section), hovered: named(hovered) };
    paintForeEdge(context, scene, size, coloursOf(element));
  }, [bands, section, hovered, size, shade]);

  const bandUnder = (event: PointerEvent): Band | null => {
    const box = event.currentTarget.getBoundingClientRect();
    return bandAt(bands, (event.clientY - box.top) / box.height);
  };
  return (
    <div className="fore-edge-picture" aria-hidden="true">
      <canvas
        ref={canvas}
        className="fore-edge-canvas"
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          const band = bandUnder(event);
          if (band) onGo(band.section);
        }}
        onPointerMove={(event) => {
          const band = bandUnder(event);
          onHover(band?.section ?? null);
          if (event.buttons === 1 && band && band.section !== section) onGo(band.section);
        }}
        onPointerLeave={() => onHover(null)}
      />
      <Mark bands={bands} />
    </div>
  );
}

/** Milliseconds that the mark may lag behind the cursor. */
const MARK_LAG = 120;

/** Where the cursor stands: an element of its own, which follows a moment later and costs a key nothing. */
function Mark({ bands }: { readonly bands: readonly Band[] }) {
  const { books, place } = useWorkbench();
  const read = useCallback((): string | null => {
    const { section, anchor } = place.get();
    const band = bands.find((each) => each.section === section);
    if (!band) return null;
    const node = books.get()?.book.text.children.find((each) => each.attrs['id'] === section);
    const share = node && anchor ? shareInSection(node, anchor) : 0;
    return ((band.from + share * (band.to - band.from)) * 100).toFixed(1);
  }, [bands, books, place]);
  const top = useLately([books, place], read, MARK_LAG);
  return top === null ? null : <div className="fore-edge-mark" style={{ top: `${top}%` }} />;
}

/** Light or dark and the contrast, as the page has them now. */
function useShade(): string {
  return useSyncExternalStore(watchRoot, () => {
    const { shade, contrast } = document.documentElement.dataset;
    return `${shade} ${contrast}`;
  });
}

function watchRoot(listener: () => void): () => void {
  const observer = new MutationObserver(listener);
  observer.observe(document.documentElement, { attributeFilter: ['data-shade', 'data-contrast'] });
  return () => observer.disconnect();
}

function useSize(element: { readonly current: HTMLElement | null }) {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useEffect(() => {
    const target = element.current;
    if (!target) return;
    const observer = new ResizeObserver(() => setSize({ width: target.clientWidth, height: target.clientHeight }));
    observer.observe(target);
    return () => observer.disconnect();
  }, [element]);
  return size;
}

function coloursOf(element: Element): EdgeColours {
  const style = getComputedStyle(element);
  const colour = (name: string): string => style.getPropertyValue(name).trim();
  return {
    tones: {
      one: colour('--paper-one'),
      two: colour('--paper-two'),
      matter: colour('--paper-three'),
      part: colour('--edge'),
    },
    leaf: colour('--leaf'),
    accent: colour('--accent'),
    ink: colour('--ink'),
  };
}

interface SectionListProps {
  readonly rows: readonly SectionRow[];
  readonly section: SectionId | null;
  readonly onGo: (section: SectionId) => void;
}

/** The same for those who don't see it: one line a section; arrow keys go from one to the next. */
const SectionList = memo(function SectionList({ rows, section, onGo }: SectionListProps) {
  const items = useLines(rows);
  return (
    <ListBox
      className="fore-edge-list"
      aria-label={words.label}
      selectionMode="single"
      selectionBehavior="replace"
      disallowEmptySelection
      items={items}
      selectedKeys={section === null ? [] : [section]}
      onSelectionChange={(keys) => {
        const [key] = keys;
        if (key !== undefined) onGo(String(key));
      }}
    >
      {({ id, text }) => (
        <ListBoxItem id={id} textValue={text}>
          {text}
        </ListBoxItem>
      )}
    </ListBox>
  );
});

interface Line {
  readonly id: SectionId;
  readonly text: string;
}

/** What each section's line says; the same object while it says the same, so that its element stays as it is. */
function useLines(rows: readonly SectionRow[]): readonly Line[] {
  const known = useRef<ReadonlyMap<SectionId, Line>>(new Map());
  return useMemo(() => {
    const lines = rows.map((row) => {
      const [old, text] = [known.current.get(row.id), describe(row)];
      return old?.text === text ? old : { id: row.id, text };
    });
    known.current = new Map(lines.map((line) => [line.id, line]));
    return lines;
  }, [rows]);
}

function describe(row: SectionRow): string {
  const pages = row.pages === null || row.pages === 0 ? '' : texts.common.pages(row.pages);
  const found = row.errors + row.warnings + row.notes;
  const findings = found === 0 ? '' : texts.common.findings(found);
  return words.section(nameOfRow(row), pages, [findings, row.changed ? words.changed : ''].filter(Boolean).join(', '));
}
