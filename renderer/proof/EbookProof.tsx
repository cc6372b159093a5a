/** The ebook as it will be read: the exported document on a screen of the chosen size, turned by keys. */
import { type KeyboardEvent, type MouseEvent, useRef, useState } from 'react';
import { usePlace, useStore, useWorkbench } from '../state/index.ts';
import { IconButton } from '../ui/index.ts';
import { proof as texts } from '../ui/texts/proof.en.ts';
import { EbookLook } from './EbookLook.tsx';
import { EMPTY_DOCUMENT } from './ebookFrame.ts';
import { useProofRoom, useSaid, useView } from './hooks.ts';
import { screenLook } from './readingSheet.ts';
import { clickAt, type Marked, type Pages, turnScreen, useEbookFrame } from './useEbookFrame.ts';
import { useFittedScale } from './useFittedScale.ts';

export function EbookProof() {
  const edition = usePlace((place) => place.ebookEdition);
  return (
    <section className="ebook-proof" aria-label={texts.ebook.title}>
      {edition === null ? <p className="spread-notice">{texts.ebook.none}</p> : <Screen />}
    </section>
  );
}

function Screen() {
  const workbench = useWorkbench();
  const room = useProofRoom();
  const iframe = useRef<HTMLIFrameElement>(null);
  const holder = useRef<HTMLDivElement>(null);
  const look = screenLook(useView((state) => state.ebook));
  const scale = useFittedScale(holder, look.width, look.height);
  const [pages, setPages] = useState<Pages>({ page: 0, count: 1 });
  const [mark, setMark] = useState<Marked | null>(null);
  const absent = useStore(room.ebook, (state) => state.absent);
  const waiting = useStore(room.ebook, (state) => state.proof === null);
  const screen = useEbookFrame({ workbench, room, iframe, setPages, setMark });
  useSaid('.ebook-proof', texts.ebook.place(pages.page + 1, pages.count));
  const turn = (by: number): void => turnScreen(workbench, screen.current, by);

  const onKeyDown = (event: KeyboardEvent): void => {
    const steps: Readonly<Record<string, number>> = { ArrowLeft: -1, ArrowRight: 1, PageUp: -1, PageDown: 1, ' ': 1 };
    const step = steps[event.key];
    if (step === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    turn(event.key === ' ' && event.shiftKey ? -1 : step);
    event.preventDefault();
  };
  const onClick = (event: MouseEvent): void => {
    const box = iframe.current?.getBoundingClientRect();
    if (box) clickAt(workbench, screen.current, (event.clientX - box.left) / scale, (event.clientY - box.top) / scale);
  };
  return (
    <>
      <EbookLook />
      <div className="ebook-holder" ref={holder}>
        <div
          className="ebook-screen"
          style={{ width: look.width * scale, height: look.height * scale }}
          data-tone={look.tone}
        >
          <iframe
            ref={iframe}
            title={texts.ebook.frame}
            sandbox="allow-same-origin"
            srcDoc={EMPTY_DOCUMENT}
            tabIndex={-1}
            style={{ width: look.width, height: look.height, transform: `scale(${scale})` }}
          />
          {mark && (
            <div className="ebook-mark" style={{ top: mark.top * scale, height: Math.max(12, mark.height * scale) }} />
          )}
          {/* biome-ignore lint/a11y/useSemanticElements: a surface to click on and to turn pages by keys */}
          <div
            className="ebook-surface"
            role="group"
            // biome-ignore lint/a11y/noNoninteractiveTabindex: pages are turned by keys here
            tabIndex={0}
            aria-label={`${texts.ebook.frame}: ${texts.ebook.place(pages.page + 1, pages.count)}`}
            onKeyDown={onKeyDown}
            onClick={onClick}
            onDoubleClick={() => workbench.place.goToDesk('copy')}
          />
          {waiting && <p className="ebook-notice">{absent ? texts.ebook.absent : texts.ebook.waiting}</p>}
        </div>
      </div>
      <div className="ebook-foot">
        <IconButton icon="left" name={texts.ebook.previous} onPress={() => turn(-1)} />
        <span className="figures quiet">{texts.ebook.place(pages.page + 1, pages.count)}</span>
        <IconButton icon="right" name={texts.ebook.next} onPress={() => turn(1)} />
      </div>
    </>
  );
}
