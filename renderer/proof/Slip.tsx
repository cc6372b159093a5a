/** The slip beside the text: the print page or the ebook's screen that the cursor stands on, following as one types. */
import { useEffect, useRef, useState } from 'react';
import { useWorkbench } from '../state/index.ts';
import { ChoiceRow } from '../ui/index.ts';
import { proof } from '../ui/texts/proof.en.ts';
import { EbookProof } from './EbookProof.tsx';
import { followPlace } from './follow.ts';
import { useLayout, useProofRoom } from './hooks.ts';
import { SpreadCanvas } from './spreadCanvas.ts';
import './proof.css';

const texts = proof.slip;

type Shown = 'print' | 'ebook' | 'both';

const OPTIONS = [
  { value: 'print', text: texts.print },
  { value: 'ebook', text: texts.ebook },
  { value: 'both', text: texts.both },
] as const;

export function Slip() {
  const workbench = useWorkbench();
  const room = useProofRoom();
  const [shown, setShown] = useState<Shown>('print');
  useEffect(() => followPlace(workbench, room), [workbench, room]);
  return (
    <section className="slip" aria-label={texts.title}>
      <ChoiceRow<Shown> label={texts.show} value={shown} options={OPTIONS} onChange={setShown} />
      {shown !== 'ebook' && <SlipPage />}
      {shown !== 'print' && <EbookProof />}
    </section>
  );
}

/** One page, as large as the slip is wide. */
function SlipPage() {
  const workbench = useWorkbench();
  const proofRoom = useProofRoom();
  const room = useRef<HTMLDivElement>(null);
  const table = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const spread = useRef<SpreadCanvas | null>(null);
  const empty = useLayout((state) => state.pages.length === 0);
  useEffect(() => {
    if (!room.current || !table.current || !canvas.current) return undefined;
    const elements = { room: room.current, table: table.current, canvas: canvas.current };
    const { view } = proofRoom;
    const made = new SpreadCanvas(workbench, elements, {
      page: () => view.get().page,
      facing: () => 'single',
      zoom: () => 'fit',
    });
    spread.current = made;
    return () => made.dispose();
  }, [workbench, proofRoom]);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the cursor in the text beside it goes everywhere by keys
    // biome-ignore lint/a11y/noStaticElementInteractions: see above
    <div
      className="spread-room"
      ref={room}
      onClick={(event) => {
        const hit = spread.current?.hit(event.clientX, event.clientY);
        if (hit?.anchor && hit.page.section !== null) workbench.place.goTo(hit.page.section, hit.anchor, 'slip');
      }}
    >
      <div className="spread-table" ref={table} aria-hidden="true">
        <canvas ref={canvas} />
      </div>
      {empty && <p className="spread-notice">{texts.waiting}</p>}
    </div>
  );
}
