/**
 * Fields: instructions whose result stands in the text. In: their marks as they come, across runs and paragraphs; out:
 * whether text is shown just now, which link it belongs to, and whether it is part of a generated contents list.
 */

interface Field {
  code: string;
  inResult: boolean;
  /** The field stands in another's instructions, so nothing of it is shown. */
  readonly hidden: boolean;
  contents: boolean;
  href: string | null;
}

export class Fields {
  private readonly open: Field[] = [];
  private contents = 0;

  /** `toHref` makes a link target safe or refuses it. */
  constructor(private readonly toHref: (target: string) => string | null) {}

  begin(): void {
    const outer = this.top();
    const hidden = outer !== undefined && (outer.hidden || !outer.inResult);
    this.open.push({ code: '', inResult: false, hidden, contents: false, href: outer?.href ?? null });
  }

  addCode(text: string): void {
    const field = this.top();
    if (field && !field.inResult) field.code += text;
  }

  separate(): void {
    const field = this.top();
    if (!field || field.inResult) return;
    field.inResult = true;
    field.contents = /^\s*TOC(?![a-z])/i.test(field.code);
    if (field.contents) this.contents++;
    const target = hrefOfField(field.code);
    if (target !== null) field.href = this.toHref(target);
  }

  end(): void {
    const field = this.open.pop();
    if (field?.contents) this.contents--;
  }

  /** A field that says its instruction in an attribute (w:fldSimple). */
  beginSimple(code: string): void {
    this.begin();
    this.addCode(code);
    this.separate();
  }

  /**
   * Neither an instruction nor a link goes on in the next paragraph: one that was never finished must not swallow the
   * text after it.
   */
  endParagraph(): void {
    for (const each of this.open) each.href = null;
    const first = this.open.findIndex((each) => !each.inResult);
    if (first < 0) return;
    while (this.open.length > first) this.end();
  }

  /** What stands here is not shown. */
  get hidden(): boolean {
    return this.top()?.hidden ?? false;
  }

  get href(): string | null {
    return this.top()?.href ?? null;
  }

  get inContents(): boolean {
    return this.contents > 0;
  }

  private top(): Field | undefined {
    return this.open[this.open.length - 1];
  }
}

/** The address of a HYPERLINK instruction; null for any other. */
export function hrefOfField(code: string): string | null {
  const tokens = [...code.matchAll(/"((?:[^"\\]|\\.)*)"|(\\[a-z])|(\S+)/gi)];
  if (tokens[0]?.[3]?.toUpperCase() !== 'HYPERLINK') return null;
  let address = '';
  let anchor = '';
  for (let at = 1; at < tokens.length; at++) {
    const token = tokens[at]!;
    const flag = token[2]?.toLowerCase();
    if (flag === '\\l') anchor = fieldWord(tokens[++at]);
    else if (flag === '\\o' || flag === '\\t') at++;
    else if (flag === undefined && address === '') address = fieldWord(token);
  }
  const href = anchor ? `${address}#${anchor}` : address;
  return href === '' ? null : href;
}

function fieldWord(token: RegExpMatchArray | undefined): string {
  return token?.[1]?.replace(/\\(.)/g, '$1') ?? token?.[3] ?? '';
}
