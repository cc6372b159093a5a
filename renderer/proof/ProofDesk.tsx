/** The proof desk: the spread, the ebook's screen and the findings side by side, all pages in small below. */
import { useEffect, useRef } from 'react';
import { Group, Panel, Separator } from 'react-resizable-panels';
import { useWorkbench, type Workbench } from '../state/index.ts';
import { texts as allTexts, type Deed, useDeeds, useTools } from '../ui/index.ts';
import { proof as texts } from '../ui/texts/proof.en.ts';
import { changedPages, nextAfter } from './changedPages.ts';
import { EbookProof } from './EbookProof.tsx';
import { FINDINGS_LIST, FindingsList } from './FindingsList.tsx';
import { followPlace, pageBeyond, turnTo } from './follow.ts';
import { useProofRoom } from './hooks.ts';
import { LeafStripView } from './LeafStripView.tsx';
import { FOLIO_FIELD, ProofBar } from './ProofBar.tsx';
import { ProofLook } from './ProofLook.tsx';
import type { ProofRoom } from './room.ts';
import { SpreadView } from './SpreadView.tsx';
import { nextZoom, type Zoom } from './spreads.ts';
import type { Overlay } from './viewStore.ts';
import './proof.css';

export function ProofDesk() {
  const workbench = useWorkbench();
  const room = useProofRoom();
  useEffect(() => followPlace(workbench, room), [workbench, room]);
  useProofDeeds();
  const { settings } = workbench;
  // Sizes are remembered, not followed: a panel that is dragged must not be drawn anew by its own memory.
  const first = useRef(settings.get().panels).current;
  const size = (name: string, otherwise: number): string => `${first[name] || otherwise}%`;
  return (
    <div className="proof-desk">
      <h2 className="unseen">{texts.title}</h2>
      <Group
        id="proof"
        className="proof-body"
        orientation="horizontal"
        onLayoutChanged={(layout, { isUserInteraction }) => {
          if (isUserInteraction) settings.set({ panels: layout });
        }}
      >
        <Panel id="proof-print" className="panel" minSize="280px">
          <div className="proof-print">
            <ProofBar />
            <ProofLook />
            <SpreadView />
          </div>
        </Panel>
        <Separator className="separator" aria-label={allTexts.frame.resize(texts.ebook.title)} />
        <Panel
          id="proof-ebook"
          className="panel"
          defaultSize={size('proof-ebook', 30)}
          minSize="220px"
          maxSize="50%"
          collapsible
        >
          <EbookProof />
        </Panel>
        <Separator className="separator" aria-label={allTexts.frame.resize(texts.findings.title)} />
        <Panel
          id="proof-findings"
          className="panel"
          defaultSize={size('proof-findings', 18)}
          minSize="160px"
          maxSize="40%"
          collapsible
        >
          <FindingsList />
        </Panel>
      </Group>
      <LeafStripView />
    </div>
  );
}

/** The desk's commands, while it is on the page. */
function useProofDeeds(): void {
  const workbench = useWorkbench();
  const room = useProofRoom();
  const { view } = room;
  const { commands, tell } = useTools();
  const turn = (spreads: number) => () => turnTo(workbench, room, pageBeyond(workbench, room, spreads));
  const overlay = (name: Overlay): Deed => ({
    run: () => view.toggleOverlay(name),
    on: () => view.get().overlays.has(name),
  });
  const zoom = (to: Zoom): Deed => ({ run: () => view.look({ zoom: to }), on: () => view.get().zoom === to });
  const step = (direction: 1 | -1): Deed => ({
    run: () => view.look({ zoom: nextZoom(room.size.get(), direction) }),
    enabled: () => nextZoom(room.size.get(), direction) !== room.size.get(),
  });
  useEffect(() => view.subscribe(commands.touch), [view, commands]);
  useDeeds(commands, {
    'proof.previous': turn(-1),
    'proof.next': turn(1),
    'proof.goTo': () => document.getElementById(FOLIO_FIELD)?.focus(),
    'proof.facing': {
      run: () => view.look({ facing: view.get().facing === 'facing' ? 'single' : 'facing' }),
      on: () => view.get().facing === 'facing',
    },
    'proof.fit': zoom('fit'),
    'proof.width': zoom('width'),
    'proof.actual': zoom(100),
    'proof.zoomIn': step(1),
    'proof.zoomOut': step(-1),
    'proof.trim': overlay('trim'),
    'proof.margins': overlay('margins'),
    'proof.grid': overlay('grid'),
    'proof.changed': overlay('changed'),
    'proof.nextChanged': () => tell({ kind: 'done', text: toNextChanged(workbench, room) }),
    'proof.together': { run: () => view.look({ together: !view.get().together }), on: () => view.get().together },
    'view.findings': () => document.getElementById(FINDINGS_LIST)?.focus(),
  });
}

/** Turns to the next page that changed since the last export, and says what there is to see. */
function toNextChanged(workbench: Workbench, room: ProofRoom): string {
  const changed = changedPages(workbench);
  if (changed === null) return texts.nothingExported;
  if (changed.length === 0) return texts.nothingChanged;
  const at = nextAfter(changed, room.view.get().page);
  const page = changed[at] ?? 0;
  turnTo(workbench, room, page);
  if (!room.view.get().overlays.has('changed')) room.view.toggleOverlay('changed');
  const folio = workbench.layout.get().pages[page]?.folio.label ?? '';
  return texts.changedPage(folio, at + 1, changed.length);
}
