/** The proof desk: the spread, the ebook's screen and the findings side by side, all pages in small below. */
import { useEffect } from 'react';
import { Group, Panel, Separator } from 'react-resizable-panels';
import { useWorkbench } from '../state/index.ts';
import { useDeeds, useTools } from '../ui/index.ts';
import { proof as texts } from '../ui/texts/proof.en.ts';
import { EbookProof } from './EbookProof.tsx';
import { FINDINGS_LIST, FindingsList } from './FindingsList.tsx';
import { followPlace, pageBeyond, turnTo } from './follow.ts';
import { useProofRoom } from './hooks.ts';
import { LeafStripView } from './LeafStripView.tsx';
import { FOLIO_FIELD, ProofBar } from './ProofBar.tsx';
import { SpreadView } from './SpreadView.tsx';
import './proof.css';

export function ProofDesk() {
  const workbench = useWorkbench();
  const room = useProofRoom();
  useEffect(() => followPlace(workbench, room), [workbench, room]);
  useProofDeeds();
  return (
    <div className="proof-desk">
      <h1 className="unseen">{texts.title}</h1>
      <Group className="proof-body" orientation="horizontal">
        <Panel id="spread" minSize="320px">
          <div className="proof-print">
            <ProofBar />
            <SpreadView />
          </div>
        </Panel>
        <Separator className="separator" />
        <Panel id="ebook" defaultSize="30%" minSize="240px" collapsible>
          <EbookProof />
        </Panel>
        <Separator className="separator" />
        <Panel id="findings" defaultSize="20%" minSize="180px" collapsible>
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
  const { commands } = useTools();
  const turn = (spreads: number) => () => turnTo(workbench, room, pageBeyond(workbench, room, spreads));
  useDeeds(commands, {
    'proof.previous': turn(-1),
    'proof.next': turn(1),
    'proof.goTo': () => document.getElementById(FOLIO_FIELD)?.focus(),
    'proof.facing': () => view.look({ facing: view.get().facing === 'facing' ? 'single' : 'facing' }),
    'proof.fit': () => view.look({ zoom: 'fit' }),
    'proof.trim': () => view.toggleOverlay('trim'),
    'proof.margins': () => view.toggleOverlay('margins'),
    'proof.grid': () => view.toggleOverlay('grid'),
    'proof.changed': () => view.toggleOverlay('changed'),
    'proof.together': () => view.look({ together: !view.get().together }),
    'view.findings': () => document.getElementById(FINDINGS_LIST)?.focus(),
  });
}
