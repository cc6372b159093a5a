/** The panel's hands on the book. In: an edition; out: its design, and deeds that change, choose, save and load designs. */
import type { DesignId } from '#base';
import type { Change, Edition } from '#book';
import type { DesignSettings } from '#design';
import { newId, type Workbench } from '../state/index.ts';
import { nameOf, type Tools } from '../ui/index.ts';
import { design as words } from '../ui/texts/design.en.ts';
import { adjusted, broughtIn, dropped, isOwn, resetToBase, settingsOf, takeUp } from './changes.ts';
import { fileNameOf, readDesignFile } from './designFile.ts';
import { pictureIn, textWithPicture } from './designPicture.ts';
import { ownPicture } from './ownPicture.ts';
import { baseOf } from './settings/compare.ts';

export class Designing {
  constructor(
    private readonly workbench: Workbench,
    private readonly tools: Tools,
    private readonly edition: Edition,
  ) {}

  get settings(): DesignSettings {
    return settingsOf(this.workbench.books.current.book, this.edition.design);
  }

  /**
   * Changes the design. What has the same key, one after the other, is undone together.
   * @param first what the book needs for it, such as a picture: part of the same step.
   */
  adjust(change: (settings: DesignSettings) => DesignSettings, key: string, first: readonly Change[] = []): void {
    const { books } = this.workbench;
    const { book } = books.current;
    // The edition of this moment: a drag goes on after its first step gave the book a design of its own.
    const edition = book.editions.find((each) => each.id === this.edition.id) ?? this.edition;
    const before = settingsOf(book, edition.design);
    const name = isOwn(book, before.id) ? before.name : words.ownName(before.name);
    const own = adjusted(book, change(before), { id: newId('design'), name });
    const step: Change = first.length > 0 ? { kind: 'group', changes: [...first, own] } : own;
    this.apply(step, `design ${edition.id} ${key}`);
  }

  /** A run of steps has ended. */
  seal(): void {
    this.workbench.books.seal();
  }

  choose(design: DesignId): void {
    if (design === this.edition.design) return;
    this.apply(takeUp(this.workbench.books.current.book, this.edition, design));
  }

  /** The book gets a copy of the design, and the edition takes it up: what it had stays as it is. */
  duplicate(): void {
    const { book } = this.workbench.books.current;
    const { settings } = this;
    const name = isOwn(book, settings.id) ? words.copyName(settings.name) : words.ownName(settings.name);
    this.apply(broughtIn(book, this.edition, { ...settings, id: newId('design'), name }));
  }

  reset(): void {
    const { settings } = this;
    if (!this.apply(resetToBase(this.workbench.books.current.book, settings))) return;
    this.tools.tell({ kind: 'done', text: words.isReset(baseOf(settings).name) });
  }

  drop(): void {
    const { settings } = this;
    if (!this.apply(dropped(this.workbench.books.current.book, settings))) return;
    this.tools.tell({ kind: 'done', text: words.dropped(settings.name, baseOf(settings).name) });
  }

  async save(): Promise<void> {
    const { settings } = this;
    const path = await this.tools.picker.choose('saveDesign', fileNameOf(settings));
    if (path === null) return;
    const written = await this.workbench.host.writeText({
      path,
      text: await textWithPicture(settings, this.workbench),
    });
    if (written.ok) this.tools.tell({ kind: 'done', text: words.saved(nameOf(path)) });
    else this.tools.problem(written.problem);
  }

  async load(): Promise<void> {
    const path = await this.tools.picker.choose('openDesign');
    if (path === null) return;
    const { host, info, books, fonts } = this.workbench;
    const file = await host.readFile({ path });
    if (!file.ok) {
      this.tools.problem(file.problem);
      return;
    }
    await fonts.load();
    const families = new Set([...info.fonts, ...(fonts.get() ?? [])].map((each) => each.family));
    const settings = readDesignFile(file.value, newId('design'), families);
    if (!settings.ok) {
      this.tools.problem(settings.problem);
      return;
    }
    const { settings: whole, first } = await withFilePicture(settings.value, file.value.bytes);
    const change = broughtIn(books.current.book, this.edition, whole);
    if (this.apply({ kind: 'group', changes: [...first, change] })) {
      this.tools.tell({ kind: 'done', text: words.loaded(whole.name) });
    }
  }

  private apply(change: Change, merge?: string): boolean {
    const outcome = this.workbench.books.apply(change, merge === undefined ? {} : { merge });
    if (!outcome.ok) this.tools.problem(outcome.problem);
    return outcome.ok;
  }
}

/** A design from a file with the picture that the file carries for it, under the name by which this book will know it. */
async function withFilePicture(
  settings: DesignSettings,
  file: Uint8Array,
): Promise<{ readonly settings: DesignSettings; readonly first: readonly Change[] }> {
  const { sceneBreak } = settings;
  const found = sceneBreak.own?.kind === 'picture' ? pictureIn(file) : null;
  const picture = found && (await ownPicture(found.name, found.bytes));
  if (sceneBreak.own?.kind !== 'picture' || !picture?.ok) return { settings, first: [] };
  const { record, colour } = picture.value;
  const own = { ...sceneBreak.own, asset: record.id, colour };
  return {
    settings: { ...settings, sceneBreak: { ...sceneBreak, own } },
    first: [{ kind: 'putAsset', asset: record }],
  };
}
