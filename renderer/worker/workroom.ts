/**
 * The layout worker at work. In: the window's messages, in order; out: replies. Whatever can't wait comes first: changes,
 * then the pages of the section in view, then its screen in the ebook, then the rest of the book, and the check before press
 * once nothing else is left. Fonts, patterns, turns and posting are given, so that it runs in any thread.
 */
import { type EditionId, type Finding, failure, type Outcome, type SectionId, success } from '#base';
import { type Book, type Change, selectEdition } from '#book';
import { resolveForEbook } from '#design';
import { type PageStart, proofSection } from '#ebook';
import { Desk, type DeskReply, Engine, languagesOf, Session } from '#engine';
import { bookOfMessage } from '#host';
import type { Page } from '#page';
import { preflight } from '#preflight';
import type { FontLibrary, Hyphenator } from '#type';
import { marksOf } from './marks.ts';
import type { WorkerFace, WorkerReply, WorkerRequest } from './messages.ts';
import { OtherEditions } from './otherEditions.ts';
import { OutlineSender } from './outlines.ts';
import { type SpecimenRequest, specimenPages } from './specimen.ts';

export type PostWorkerReply = (reply: WorkerReply, transfer: ArrayBuffer[]) => void;

export interface WorkroomParts {
  /** Loads the fonts; `base` is the window's address. */
  readonly loadFonts: (faces: readonly WorkerFace[], base: string) => Promise<FontLibrary>;
  readonly loadHyphenator: (language: string) => Promise<Hyphenator | null>;
  readonly post: PostWorkerReply;
  /** Gives way, so that messages that wait outside come in. */
  readonly turn: () => Promise<void>;
  /** Milliseconds from some moment on. */
  readonly now: () => number;
  /** Comes back when the book has been left alone for a moment. */
  readonly rest: () => Promise<void>;
}

/** A book with all that works on it. */
interface Bench {
  readonly engine: Engine;
  readonly session: Session;
  readonly desk: Desk;
  readonly outlines: OutlineSender;
  /** Languages whose patterns were looked for, found or not. */
  readonly languages: ReadonlySet<string>;
}

/** Milliseconds after which a layout tells how far it is, and between two such words: no key makes work take that long. */
const PROGRESS_AFTER = 150;

export class Workroom {
  private readonly waiting: WorkerRequest[] = [];
  private working = false;
  private bench: Bench | null = null;
  private faces: readonly WorkerFace[] = [];
  private base = '';
  /** Changes made before the bench was last set up anew. */
  private earlier = 0;
  private wantedEbook: { readonly edition: EditionId; readonly section: SectionId } | null = null;
  private laidOut: EditionId | null = null;
  private checked: string | null = null;
  private readonly others = new OtherEditions();
  private arrivals = 0;
  /** When a layout began, or last told how far it is. */
  private toldAt = 0;

  constructor(private readonly parts: WorkroomParts) {}

  /** Takes a message; the work is done in turns. Never rejects: what goes wrong is a reply. */
  async take(message: WorkerRequest): Promise<void> {
    this.arrivals++;
    this.waiting.push(message);
    if (!this.working) await this.goOn();
  }

  private async goOn(): Promise<void> {
    this.working = true;
    try {
      while (await this.work()) await this.parts.turn();
    } finally {
      this.working = false;
    }
    await this.checkAtRest();
  }

  /** Does one piece of work; false where there is nothing left. */
  private async work(): Promise<boolean> {
    try {
      const message = this.waiting.shift();
      if (message) await this.handle(message);
      else if (this.bench?.desk.step()) this.showEbook();
      else if (!this.showEbook()) return false;
    } catch (problem) {
      // A design or a font that can't be used: the book stays as it is, and the next change may mend it.
      this.parts.post({ kind: 'failed', problem: messageOf(problem) }, []);
    }
    return true;
  }

  private async handle(message: WorkerRequest): Promise<void> {
    switch (message.kind) {
      case 'open':
        this.faces = message.faces;
        this.base = message.base;
        await this.setUp(bookOfMessage(message.book));
        this.parts.post({ kind: 'ready' }, []);
        break;
      case 'faces':
        this.faces = [...this.faces, ...message.faces];
        if (this.bench) await this.setUp(this.bench.session.book);
        break;
      case 'marks':
        if (this.bench)
          this.parts.post({ kind: 'marks', marks: marksOf(this.bench.engine.library, message.families) }, []);
        break;
      case 'ebook':
        this.wantedEbook = message;
        break;
      case 'others':
        this.others.wanted = message.wanted;
        break;
      case 'specimen':
        if (this.bench) this.showSpecimen(this.bench, message);
        break;
      default:
        if (message.kind === 'layout') {
          // Whoever goes back to an edition has put its findings away.
          if (message.edition !== this.laidOut) this.checked = null;
          this.laidOut = message.edition;
          this.toldAt = this.parts.now();
        }
        this.bench?.desk.take(message);
        if (message.kind === 'change' && this.bench) await this.learnLanguages(this.bench);
    }
  }

  /** Loads fonts and patterns for the book and puts it on the bench. */
  private async setUp(book: Book): Promise<void> {
    const library = await this.parts.loadFonts(this.faces, this.base);
    const languages = languagesOf(book);
    const hyphenators = await this.loadPatterns(languages);
    this.earlier += this.bench?.session.version ?? 0;
    const engine = new Engine({ library, hyphenators });
    const session = new Session(engine, book);
    const outlines = new OutlineSender(library, this.bench?.outlines ?? null);
    const { earlier } = this;
    const desk = new Desk(session, (reply, transfer) => {
      this.send({ ...reply, version: reply.version + earlier }, transfer, outlines);
      if (reply.kind === 'book') this.sendFrame(session, reply.edition);
    });
    this.bench = { engine, session, desk, outlines, languages: new Set(languages) };
    this.checked = null;
    this.others.forget();
  }

  private async loadPatterns(languages: readonly string[]): Promise<ReadonlyMap<string, Hyphenator>> {
    const found = new Map<string, Hyphenator>();
    for (const language of languages) {
      const hyphenator = await this.parts.loadHyphenator(language);
      if (hyphenator) found.set(language, hyphenator);
    }
    return found;
  }

  /** A passage in a language that is new to the book needs its patterns, and the book to be broken with them. */
  private async learnLanguages({ session, languages }: Bench): Promise<void> {
    if (languagesOf(session.book).some((each) => !languages.has(each))) await this.setUp(session.book);
  }

  /** Pages go out after the outlines of the glyphs that they show for the first time. */
  private send(reply: DeskReply, transfer: ArrayBuffer[], outlines: OutlineSender): void {
    if (reply.kind === 'progress' && !this.isTimeForProgress()) return;
    if (reply.kind === 'section' || reply.kind === 'pages') {
      for (const each of outlines.before(reply.changed)) this.parts.post(each, []);
    }
    this.parts.post(reply, transfer);
  }

  private isTimeForProgress(): boolean {
    const now = this.parts.now();
    if (now - this.toldAt < PROGRESS_AFTER) return false;
    this.toldAt = now;
    return true;
  }

  private sendFrame(session: Session, edition: EditionId): void {
    const frame = session.madeUp(edition)?.design.frame;
    const version = session.version + this.earlier;
    if (frame) this.parts.post({ kind: 'frame', version, edition, frame }, []);
  }

  /** A design that can't be set has no pages: that it was tried is no fault of the book. */
  private showSpecimen({ engine, session, outlines }: Bench, request: SpecimenRequest): void {
    let pages: readonly Page[] = [];
    try {
      pages = specimenPages(engine, session.book, request);
    } catch (problem) {
      if (!(problem instanceof RangeError)) throw problem;
    }
    for (const each of outlines.before(pages)) this.parts.post(each, []);
    this.parts.post({ kind: 'specimen', key: request.key, pages }, []);
  }

  /** The section that the ebook proof waits for; false where none is. */
  private showEbook(): boolean {
    const { bench, wantedEbook } = this;
    if (!bench || !wantedEbook) return false;
    this.wantedEbook = null;
    const { edition, section } = wantedEbook;
    const proof = this.proofOf(bench, edition, section);
    if (proof.ok) {
      const version = bench.session.version + this.earlier;
      this.parts.post({ kind: 'ebook', version, edition, section, proof: proof.value }, []);
    } else this.parts.post({ kind: 'failed', problem: proof.problem }, []);
    return true;
  }

  private proofOf(
    { engine, session }: Bench,
    id: EditionId,
    section: SectionId,
  ): Outcome<ReturnType<typeof proofSection>> {
    const { book } = session;
    if (!book.editions.some((each) => each.id === id && each.kind === 'ebook')) {
      return failure(`The book has no ebook edition "${id}".`);
    }
    const view = selectEdition(book, id);
    const design = resolveForEbook(engine.settingsOf(book, id));
    const families = new Set([design.family, design.displayFamily]);
    const fonts = this.faces
      .filter((face) => families.has(face.family) && !face.fallback)
      .map(({ family, weight, italic, address }) => ({ family, weight, italic, path: address }));
    return success(proofSection({ view, design, section, fonts, pageStarts: this.pageStarts(session) }));
  }

  private pageStarts(session: Session): readonly PageStart[] {
    const madeUp = this.laidOut === null ? null : session.madeUp(this.laidOut);
    return madeUp?.pageStarts ?? [];
  }

  /** Checks book and edition when nothing has come in for a moment; each state of the book once. */
  private async checkAtRest(): Promise<void> {
    const { arrivals } = this;
    await this.parts.rest();
    if (arrivals !== this.arrivals || this.working) return;
    this.working = true;
    try {
      await this.check();
      await this.checkOthers();
    } catch (problem) {
      this.parts.post({ kind: 'failed', problem: messageOf(problem) }, []);
    } finally {
      this.working = false;
    }
    // What came in while the book was checked, in its order.
    if (this.waiting.length > 0) await this.goOn();
  }

  private async checkOthers(): Promise<void> {
    if (!this.bench || this.waiting.length > 0) return;
    const { engine, session } = this.bench;
    await this.others.check({
      engine,
      session,
      version: session.version + this.earlier,
      inProof: this.laidOut,
      turn: async () => {
        await this.parts.turn();
        return this.waiting.length === 0;
      },
      post: (reply) => this.parts.post(reply, []),
    });
  }

  /** The book first, then the edition: some ten milliseconds each for a long novel. */
  private async check(): Promise<void> {
    const { bench, laidOut } = this;
    const madeUp = laidOut === null ? null : bench?.session.madeUp(laidOut);
    if (!bench || laidOut === null || !madeUp) return;
    const { book } = bench.session;
    const version = bench.session.version + this.earlier;
    const state = `${version} ${laidOut}`;
    if (state === this.checked) return;
    const about = preflight({ book });
    await this.parts.turn();
    if (this.waiting.length > 0) return;
    const view = selectEdition(book, laidOut);
    const carried = madeUp.findings as readonly Finding<Change>[];
    const edition = preflight({ book, view, pages: madeUp.pages, carried });
    this.checked = state;
    // What holds for the pages as well is said with them.
    const said = new Set(edition.map(({ message }) => message));
    const ebooks = ebookFindings(bench).filter(({ message }) => !said.has(message));
    const findings = [...about, ...edition, ...ebooks];
    this.parts.post({ kind: 'checked', version, edition: laidOut, findings }, []);
  }
}

/** What there is to say of the fonts of ebooks, which have no pages to be checked with. */
function ebookFindings({ engine, session: { book } }: Bench): readonly Finding<Change>[] {
  return book.editions
    .filter((edition) => edition.kind === 'ebook')
    .flatMap((edition) => engine.told(book, edition).map((each) => ({ edition: edition.id, ...each })))
    .map((finding) => finding as Finding<Change>);
}

function messageOf(problem: unknown): string {
  return problem instanceof Error ? problem.message : String(problem);
}
