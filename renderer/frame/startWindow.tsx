/** The window's beginning. In: the page; out: the host asked, the stores made, the workbench on the page. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { createWorkbench, hostOver, lineOfWindow } from '../state/index.ts';
import { createTools, texts } from '../ui/index.ts';
import '../ui/theme.css';
import '../ui/controls.css';
import { App, windowTitle } from './app.tsx';
import { keepAppearance } from './appearance.ts';
import { addBookFaces, keepInstalledFaces } from './bookFaces.ts';
import { BookFlows } from './bookFlows.ts';
import { BusyStore } from './context.ts';
import { copyText } from './desks.tsx';
import { keepFocus } from './focusKeeper.ts';
import { keepMenu } from './menuState.ts';

export async function startWindow(page: Window, root: Element): Promise<void> {
  const host = hostOver(lineOfWindow(page));
  const info = await host.start({});
  const workbench = createWorkbench({
    host,
    info,
    base: new URL('.', page.location.href).href,
    later: (call) => afterFrame(page, call),
    after: (milliseconds, call) => page.setTimeout(call, milliseconds),
    now: () => Date.now(),
  });
  const tools = createTools(host, info);
  const busy = new BusyStore();
  const flows = new BookFlows(workbench, tools, busy.begin);
  keepAppearance(workbench.settings, page);
  keepMenu(workbench, tools, page);
  keepFocus(page);
  addBookFaces(info.fonts, page.document);
  keepInstalledFaces(workbench.fonts, page.document);
  workbench.books.subscribe(() => {
    const title = windowTitle(workbench.books.get()?.book.metadata.title);
    // Setting it is news to the whole system, even where it is the same.
    if (page.document.title !== title) page.document.title = title;
  });
  page.addEventListener('beforeunload', (event) => {
    // Changes that are still on their way need a moment; all others are safe without a question.
    if ((workbench.books.get()?.unsent ?? 0) > 0) event.preventDefault();
  });
  page.addEventListener('unhandledrejection', ({ reason }) => {
    // A call that the program did not answer, wherever it was made: the person has to hear of it.
    tools.problem(texts.frame.unanswered(reason instanceof Error ? reason.message : String(reason)));
  });
  createRoot(root).render(
    <StrictMode>
      <App workbench={workbench} tools={tools} frame={{ flows, busy }} />
    </StrictMode>,
  );
  if (info.open === null) {
    // While the first page is looked at, what every book needs is loaded.
    page.requestIdleCallback(() => {
      workbench.link.warmUp();
      void copyText.ahead();
    });
  } else {
    const opened = flows.openFile({ path: info.open });
    // The layout has to wait: its fonts would come in the way of the text, which is wanted first.
    void copyText.ahead();
    await opened;
  }
}

/** Milliseconds after which a window that never rests, or that draws nothing because it is hidden, goes on without either. */
const LATEST = 200;

/** Calls back once, when the next frame was drawn and the page has nothing better to do: keys that follow fast go together. */
function afterFrame(page: Window, call: () => void): void {
  let done = false;
  const once = (): void => {
    if (done) return;
    done = true;
    call();
  };
  page.requestAnimationFrame(() => page.requestIdleCallback(once));
  page.setTimeout(once, LATEST);
}
