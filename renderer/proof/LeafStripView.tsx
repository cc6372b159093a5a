/** The strip of all pages as a slider: one control for eye, hand and keys. */
import { type KeyboardEvent, type MouseEvent, useEffect, useRef } from 'react';
import { useWorkbench } from '../state/index.ts';
import { proof as texts } from '../ui/texts/proof.en.ts';
import { pageBeyond, turnTo } from './follow.ts';
import { useLayout, useProofRoom, useView } from './hooks.ts';
import { LeafStrip } from './leafStrip.ts';
import { useSectionInView } from './SpreadView.tsx';

export function LeafStripView() {
  const workbench = useWorkbench();
  const room = useProofRoom();
  const scroller = useRef<HTMLDivElement>(null);
  const track = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const strip = useRef<LeafStrip | null>(null);
  const page = useView((state) => state.page);
  const count = useLayout((state) => state.count);
  const folio = useLayout((state) => state.pages[page]?.folio.label ?? String(page + 1));
  const section = useSectionInView();
  useEffect(() => {
    if (!scroller.current || !track.current || !canvas.current) return undefined;
    const elements = { room: scroller.current, track: track.current, canvas: canvas.current };
    const made = new LeafStrip(workbench, elements);
    strip.current = made;
    return () => made.dispose();
  }, [workbench]);
  useEffect(() => {
    if (count > 0) strip.current?.reveal(page);
  }, [page, count]);

  const onClick = (event: MouseEvent): void => {
    const found = strip.current?.pageAt(event.clientX) ?? null;
    if (found !== null) turnTo(workbench, room, found);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const steps: Readonly<Record<string, number>> = {
      ArrowLeft: -1,
      ArrowRight: 1,
      ArrowUp: -1,
      ArrowDown: 1,
      PageUp: -8,
      PageDown: 8,
      Home: -count,
      End: count,
    };
    const step = steps[event.key];
    if (step === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    turnTo(workbench, room, pageBeyond(workbench, room, step));
    event.preventDefault();
  };
  return (
    <div
      className="leaf-strip"
      ref={scroller}
      role="slider"
      tabIndex={0}
      aria-label={texts.strip}
      aria-orientation="horizontal"
      aria-valuemin={1}
      aria-valuemax={Math.max(1, count)}
      aria-valuenow={Math.min(page + 1, Math.max(1, count))}
      aria-valuetext={texts.leaf(folio, section, false)}
      onClick={onClick}
      onKeyDown={onKeyDown}
    >
      <div className="leaf-track" ref={track} aria-hidden="true">
        <canvas ref={canvas} />
      </div>
    </div>
  );
}
