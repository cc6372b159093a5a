/**
 * Reads one XML part as events. In: the part's bytes and a root scope; out: calls on scopes.
 *
 * A scope takes the content of an element. It answers each child element with the scope for that child: itself where
 * the child is a mere wrapper, another one, or null to skip everything inside. Markup compatibility (ECMA-376 part 3)
 * is settled here, so scopes see only the alternative that counts.
 */
import { SaxesParser, type SaxesTagPlain } from 'saxes';
import { decodeXml } from './decode.ts';
import { LIMITS, Unreadable } from './limits.ts';
import { PREFIXES, UNKNOWN } from './namespaces.ts';

/** An opening tag; one object serves a whole part, so it must not be kept. */
export interface Tag {
  /** The value of an attribute by its canonical name (`w:val`, `r:id`, `style`). */
  get(name: string): string | undefined;
}

export interface Scope {
  open(name: string, tag: Tag): Scope | null;
  text?(text: string): void;
  /** The element that this scope was answered for has ended; also called for wrappers answered with `this`. */
  close?(name: string): void;
}

export interface XmlPart {
  /** How messages call the file. */
  readonly file: string;
  /** The part's name inside the file. */
  readonly part: string;
  readonly bytes: Uint8Array;
}

/** Runs the whole part through `root`, whose `open` receives the root element. */
export function readXml(part: XmlPart, root: Scope): void {
  new XmlReader(part, root).run();
}

class XmlReader implements Tag {
  private readonly scopes: Scope[];
  private readonly names: string[] = [];
  private readonly undo: (readonly (readonly [string, string | undefined])[] | null)[] = [];
  private readonly bindings = new Map<string, string>([['xml', 'xml']]);
  private readonly canonical = new Map<string, string>();
  /** Some prefix of the file differs from ours, so attribute names need translation too. */
  private foreign = false;
  /** Namespace declarations still to come, at most: most files have them all in the root, and the search can stop. */
  private declarations = 0;
  private skipped = 0;
  private textLength = 0;
  private elements = 0;
  private paragraphs = 0;
  private attributes: Record<string, string> = {};

  constructor(
    private readonly part: XmlPart,
    root: Scope,
  ) {
    this.scopes = [root];
  }

  run(): void {
    const parser = new SaxesParser<{ xmlns: false; position: false }>({ xmlns: false, position: false });
    parser.on('error', () => {
      throw this.refusal('is not well-formed XML');
    });
    parser.on('doctype', () => {
      throw this.refusal('declares a document type, which no word processor writes');
    });
    parser.on('opentag', (tag) => this.openTag(tag));
    parser.on('closetag', () => this.closeTag());
    parser.on('text', (text) => this.takeText(text));
    parser.on('cdata', (text) => this.takeText(text));
    const text = decodeXml(this.part.bytes);
    this.declarations = text.split('xmlns').length - 1;
    parser.write(text).close();
  }

  get(name: string): string | undefined {
    if (!this.foreign) return this.attributes[name];
    for (const raw in this.attributes) {
      if (raw.includes(':') ? this.nameOf(raw) === name : raw === name) return this.attributes[raw];
    }
    return undefined;
  }

  private openTag(tag: SaxesTagPlain): void {
    if (++this.elements > LIMITS.elements) throw this.refusal('holds more elements than any book');
    if (this.skipped > 0) {
      this.skipped++;
      return;
    }
    if (this.names.length >= LIMITS.depth) throw this.refusal('nests its elements too deeply');
    this.attributes = tag.attributes;
    this.undo.push(this.declarations > 0 ? this.bind(tag.attributes) : null);
    const name = this.nameOf(tag.name);
    if (name === 'w:p' && ++this.paragraphs > LIMITS.paragraphs) {
      throw this.refusal('holds more paragraphs than any book');
    }
    this.names.push(name);
    const scope = this.scopes[this.scopes.length - 1]!;
    const inner = name === 'mc:AlternateContent' ? new Alternatives(scope, this.bindings) : scope.open(name, this);
    if (inner) this.scopes.push(inner);
    else this.skipped = 1;
  }

  private closeTag(): void {
    if (this.skipped > 1) {
      this.skipped--;
      return;
    }
    const name = this.names.pop()!;
    if (this.skipped === 1) this.skipped = 0;
    else this.scopes.pop()!.close?.(name);
    const undo = this.undo.pop();
    if (undo) this.unbind(undo);
  }

  private takeText(text: string): void {
    if (this.skipped > 0) return;
    this.textLength += text.length;
    if (this.textLength > LIMITS.text) throw this.refusal('holds more text than any book');
    this.scopes[this.scopes.length - 1]!.text?.(text);
  }

  /** Takes namespace declarations; gives what they replaced, or null if there were none. */
  private bind(attributes: Record<string, string>): readonly (readonly [string, string | undefined])[] | null {
    let replaced: [string, string | undefined][] | null = null;
    for (const name in attributes) {
      if (!name.startsWith('xmlns')) continue;
      this.declarations--;
      const prefix = name === 'xmlns' ? '' : name.slice(6);
      const meaning = PREFIXES.get(attributes[name]!) ?? UNKNOWN;
      const before = this.bindings.get(prefix);
      if (before === meaning) continue;
      replaced ??= [];
      replaced.push([prefix, before]);
      this.bindings.set(prefix, meaning);
      if (prefix !== '' && prefix !== meaning && meaning !== UNKNOWN) this.foreign = true;
    }
    if (replaced) this.canonical.clear();
    return replaced;
  }

  private unbind(replaced: readonly (readonly [string, string | undefined])[]): void {
    for (const [prefix, before] of replaced) {
      if (before === undefined) this.bindings.delete(prefix);
      else this.bindings.set(prefix, before);
    }
    this.canonical.clear();
  }

  private nameOf(raw: string): string {
    let name = this.canonical.get(raw);
    if (name === undefined) {
      const colon = raw.indexOf(':');
      const meaning = this.bindings.get(raw.slice(0, Math.max(colon, 0))) ?? UNKNOWN;
      name = `${meaning}:${raw.slice(colon + 1)}`;
      this.canonical.set(raw, name);
    }
    return name;
  }

  private refusal(what: string): Unreadable {
    return new Unreadable(`${this.part.file} can't be read: its part ${this.part.part} ${what}.`);
  }
}

/** mc:AlternateContent: the first choice whose requirements are all known, else the fallback; never both. */
class Alternatives implements Scope {
  private taken = false;

  constructor(
    private readonly inner: Scope,
    private readonly bindings: ReadonlyMap<string, string>,
  ) {}

  open(name: string, tag: Tag): Scope | null {
    const fits = name === 'mc:Fallback' || (name === 'mc:Choice' && this.understands(tag.get('Requires') ?? ''));
    if (!fits || this.taken) return null;
    this.taken = true;
    return new Passage(this.inner);
  }

  private understands(requires: string): boolean {
    const prefixes = requires.split(/\s+/).filter((each) => each !== '');
    return prefixes.every((prefix) => (this.bindings.get(prefix) ?? UNKNOWN) !== UNKNOWN);
  }
}

/** Hands what is inside a wrapper to the scope around it, except the end of the wrapper itself. */
export class Passage implements Scope {
  constructor(private readonly inner: Scope) {}

  open(name: string, tag: Tag): Scope | null {
    return this.inner.open(name, tag);
  }
}
