/** The window's end of the layout worker. In: the book and its changes; out: replies to one listener, in order. */
import type { EditionId, SectionId } from '#base';
import type { Change } from '#book';
import type { BookMessage, BundledFace } from '#host';
import type { WarmRequest, WorkerFace, WorkerReply, WorkerRequest } from './messages.ts';
import type { SpecimenRequest } from './specimen.ts';

/** What the client needs of a Worker, so that tests can stand in for one. */
export interface WorkerPort {
  postMessage(message: WorkerRequest | WarmRequest): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<WorkerReply>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

/** Starts the thread. */
export function startLayoutWorker(): WorkerPort {
  return new Worker(new URL('./layoutWorker.ts', import.meta.url), { type: 'module', name: 'layout' });
}

/** The bundled faces as the worker is told of them. */
export function workerFaces(fonts: readonly BundledFace[]): readonly WorkerFace[] {
  return fonts.map(({ file, ...face }) => ({ ...face, address: `fonts/${file}` }));
}

export class LayoutClient {
  /** What came before the book could be told: it follows the book. */
  private held: WorkerRequest[] | null = [];

  constructor(
    private readonly port: WorkerPort,
    listener: (reply: WorkerReply) => void,
  ) {
    port.onmessage = ({ data }) => listener(data);
    port.onerror = ({ message }) => listener({ kind: 'failed', problem: message || 'The layout stopped.' });
  }

  /** Tells the book, once. `base` is the address that fonts and modules are relative to. */
  open(book: BookMessage, faces: readonly WorkerFace[], base: string): void {
    const held = this.held ?? [];
    this.held = null;
    this.post({ kind: 'open', book, faces, base });
    for (const each of held) this.post(each);
  }

  change(change: Change): void {
    this.post({ kind: 'change', change });
  }

  /** Asks for the pages of an edition, those of the section in view first. */
  layout(edition: EditionId, inView: SectionId | null): void {
    this.post({ kind: 'layout', edition, inView });
  }

  ebook(edition: EditionId, section: SectionId): void {
    this.post({ kind: 'ebook', edition, section });
  }

  /** Whether the other editions are to be checked as well. */
  others(wanted: boolean): void {
    this.post({ kind: 'others', wanted });
  }

  /** Asks how a section would look in a design. */
  specimen(request: Omit<SpecimenRequest, 'kind'>): void {
    this.post({ kind: 'specimen', ...request });
  }

  addFaces(faces: readonly WorkerFace[]): void {
    this.post({ kind: 'faces', faces });
  }

  /** Asks for the characters that can stand between scenes. */
  marks(families: readonly string[]): void {
    this.post({ kind: 'marks', families });
  }

  private post(message: WorkerRequest): void {
    if (this.held) this.held.push(message);
    else this.port.postMessage(message);
  }

  close(): void {
    this.port.terminate();
  }
}
