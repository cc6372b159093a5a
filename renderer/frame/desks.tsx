/** The desks. In: the desk that is chosen; out: its panels, loaded when they are first wanted; a fault stays in its panel. */
import { Component, lazy, type ReactNode, Suspense, useRef, useSyncExternalStore } from 'react';
import { Group, Panel, Separator } from 'react-resizable-panels';
import { RunningOrder } from '../runningOrder/index.ts';
import { type DeskName, useBookState, usePlace, useStore, useWorkbench } from '../state/index.ts';
import { Button, texts } from '../ui/index.ts';
import { aheadOf } from './ahead.ts';
import { DESK_PANEL, tabOf } from './deskTabs.tsx';

/** The text, which nearly everybody wants first. */
export const copyText = aheadOf(async () => (await import('../editor/index.ts')).CopyText);
const ImportReview = lazy(async () => ({ default: (await import('../importReview/index.ts')).ImportReview }));
const ProofDesk = lazy(async () => ({ default: (await import('../proof/index.ts')).ProofDesk }));
const DesignPanel = lazy(async () => ({ default: (await import('../design/index.ts')).DesignPanel }));
const Slip = lazy(async () => ({ default: (await import('../proof/index.ts')).Slip }));
const PressDesk = lazy(async () => ({ default: (await import('../press/index.ts')).PressDesk }));

const words = texts.frame;

export function Desks() {
  const desk = usePlace((place) => place.desk);
  const imported = useBookState((state) => state.imported !== null);
  const design = usePlace((place) => place.open.has('design'));
  return (
    <main className="desk">
      <div className="desk-panel" id={DESK_PANEL} role="tabpanel" tabIndex={-1} aria-labelledby={tabOf(desk)}>
        <Guarded key={imported ? 'import' : desk}>{imported ? <ImportReview /> : <Desk name={desk} />}</Guarded>
      </div>
      {design && !imported && (
        <Guarded>
          <DesignPanel />
        </Guarded>
      )}
    </main>
  );
}

function Desk({ name }: { readonly name: DeskName }) {
  switch (name) {
    case 'copy':
      return <CopyDesk />;
    case 'proof':
      return <ProofDesk />;
    case 'press':
      return <PressDesk />;
  }
}

/** CSS pixels that the running order needs at the usual size of text, at least. */
const ORDER_WIDTH = 264;

/** The share of the window that it may need at most. */
const ORDER_SHARE = 0.38;

/** What the running order needs at the size of text and in the window of now. */
function useOrderWidth(): number {
  const { settings } = useWorkbench();
  const zoom = useStore(settings, (state) => state.textZoom);
  const needed = ORDER_WIDTH * Math.min(zoom / 100, 1.6);
  return useSyncExternalStore(watchWidth, () => Math.round(Math.min(needed, window.innerWidth * ORDER_SHARE)));
}

function watchWidth(listener: () => void): () => void {
  window.addEventListener('resize', listener);
  return () => window.removeEventListener('resize', listener);
}

function CopyDesk() {
  const slip = usePlace((place) => place.open.has('slip'));
  const section = usePlace((place) => place.section);
  const { settings } = useWorkbench();
  const orderWidth = useOrderWidth();
  // Sizes are remembered, not followed: a panel that is dragged must not be drawn anew by its own memory.
  const first = useRef(settings.get().panels).current;
  const size = (name: string, otherwise: number): string => `${first[name] || otherwise}%`;
  return (
    <Group
      id="copy"
      onLayoutChanged={(layout, { isUserInteraction }) => {
        if (isUserInteraction) settings.set({ panels: rounded(layout) });
      }}
    >
      <Panel
        id="copy-order"
        className="panel"
        defaultSize={size('copy-order', 22)}
        minSize={`${orderWidth}px`}
        maxSize="45%"
        collapsible
      >
        <RunningOrder />
      </Panel>
      <Separator className="separator" aria-label={words.resize(words.panelsLabel.order)} />
      <Panel id="copy-text" className="panel" minSize="320px">
        <Guarded of={section}>
          <copyText.Part />
        </Guarded>
      </Panel>
      {slip && (
        <>
          <Separator className="separator" aria-label={words.resize(words.panelsLabel.slip)} />
          <Panel id="copy-slip" className="panel" defaultSize={size('copy-slip', 34)} minSize="220px">
            <Guarded>
              <Slip />
            </Guarded>
          </Panel>
        </>
      )}
    </Group>
  );
}

function rounded(layout: Readonly<Record<string, number>>): Record<string, number> {
  return Object.fromEntries(Object.entries(layout).map(([name, size]) => [name, Math.round(size * 10) / 10]));
}

interface GuardedProps {
  readonly children: ReactNode;
  /** What is shown: after a fault, something else is tried again by itself. */
  readonly of?: string | null;
}

function Guarded({ children, of = null }: GuardedProps) {
  return (
    <Fault of={of}>
      <Suspense fallback={<div className="desk-waiting" />}>{children}</Suspense>
    </Fault>
  );
}

interface FaultState {
  readonly problem: string | null;
}

/** What goes wrong in one panel leaves the others, and the book, as they are. */
class Fault extends Component<GuardedProps, FaultState> {
  override state: FaultState = { problem: null };

  static getDerivedStateFromError(problem: unknown): FaultState {
    return { problem: problem instanceof Error ? problem.message : String(problem) };
  }

  override componentDidUpdate({ of }: GuardedProps): void {
    if (of !== this.props.of && this.state.problem !== null) this.setState({ problem: null });
  }

  override render(): ReactNode {
    if (this.state.problem === null) return this.props.children;
    return (
      <div className="desk-fault" role="alert">
        <p>{words.fault.what}</p>
        <p className="quiet">{this.state.problem}</p>
        <Button onPress={() => this.setState({ problem: null })}>{words.fault.again}</Button>
      </div>
    );
  }
}
