/**
 * Presentation of a drawing's elements. In: an SVG document; out: what a property comes to for an element, by style attribute,
 * class rule, presentation attribute or the element around it (SVG 2, chapter 6; of style sheets, rules for classes alone).
 */

/** Properties that an element has from the one around it. */
const INHERITED: ReadonlySet<string> = new Set(['fill', 'stroke', 'fill-rule']);

export class Styles {
  private readonly classes = new Map<string, ReadonlyMap<string, string>>();

  constructor(root: Element) {
    for (const sheet of root.getElementsByTagName('style')) {
      for (const [, names = '', body = ''] of (sheet.textContent ?? '').matchAll(/([^{}]+)\{([^{}]*)\}/g)) {
        for (const [, name = ''] of names.matchAll(/\.([\w-]+)/g)) {
          this.classes.set(name, new Map([...(this.classes.get(name) ?? []), ...declarations(body)]));
        }
      }
    }
  }

  valueOf(element: Element, property: string): string | null {
    const own = this.ownValue(element, property);
    if (own !== null && own !== 'inherit') return own;
    const around = element.parentElement;
    return around && (INHERITED.has(property) || own === 'inherit') ? this.valueOf(around, property) : null;
  }

  private ownValue(element: Element, property: string): string | null {
    const written = declarations(element.getAttribute('style') ?? '').get(property);
    if (written !== undefined) return written;
    const names = (element.getAttribute('class') ?? '').split(/\s+/).reverse();
    const ruled = names.map((name) => this.classes.get(name)?.get(property)).find((value) => value !== undefined);
    return ruled ?? element.getAttribute(property)?.trim().toLowerCase() ?? null;
  }
}

function declarations(text: string): ReadonlyMap<string, string> {
  const pairs = text.split(';').map((each) => each.split(':').map((part) => part.trim().toLowerCase()));
  return new Map(pairs.flatMap(([name = '', value = '']) => (name && value ? [[name, value] as const] : [])));
}
