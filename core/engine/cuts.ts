/**
 * What a book asks of a font of the computer that it does not have. In: settings, fonts and the text; out: findings about
 * italics, bold and small capitals, which print does without.
 */
import type { Node } from 'prosemirror-model';
import type { Finding } from '#base';
import type { DesignSettings } from '#design';
import type { FontLibrary } from '#type';

/** Findings about cuts; none for the families that travel with the program, which have them all. */
export function missingCuts(settings: DesignSettings, library: FontLibrary, text: Node): readonly Finding[] {
  const families = [...new Set([settings.text.family, settings.display.family])];
  const own = families.filter((family) => library.about(family)?.installed);
  return own.flatMap((family) => {
    const { regular, italic, bold } = library.family(family);
    const marks = family === settings.text.family ? marksIn(text) : new Set<string>();
    return [
      ...(marks.has('emphasis') && !italic.italic ? [upright(family)] : []),
      ...(marks.has('strong') && bold.weight < BOLD ? [light(family)] : []),
      ...(asksForSmallCapitals(settings, family, marks) && !regular.hasFeature('smcp') ? [falseCapitals(family)] : []),
    ];
  });
}

/** From this weight on a face counts as bold (OpenType specification, OS/2 usWeightClass: 600 is semi-bold). */
const BOLD = 600;

const known = new WeakMap<Node, ReadonlySet<string>>();

/** The names of all marks in a text. */
function marksIn(text: Node): ReadonlySet<string> {
  let found = known.get(text);
  if (!found) {
    const names = new Set<string>();
    text.descendants((node) => {
      for (const { type } of node.marks) names.add(type.name);
    });
    found = names;
    known.set(text, found);
  }
  return found;
}

function asksForSmallCapitals(settings: DesignSettings, family: string, marks: ReadonlySet<string>): boolean {
  const inText = settings.leadIn.kind === 'smallCapitals' || marks.has('smallCaps');
  if (family === settings.text.family && inText) return true;
  // Looks of display lines name their letters wherever they stand.
  return family === settings.display.family && /"letters":"(?:smallCapitals|allSmall)"/.test(JSON.stringify(settings));
}

function upright(family: string): Finding {
  const message = `The font “${family}” has no italic: emphasised words print like all others.`;
  return { rule: 'fonts/no-italic', severity: 'warning', message };
}

function light(family: string): Finding {
  const message = `The font “${family}” has no bold: words in bold print like all others.`;
  return { rule: 'fonts/no-bold', severity: 'warning', message };
}

function falseCapitals(family: string): Finding {
  const message = `The font “${family}” has no small capitals: smaller capitals stand in for them.`;
  return { rule: 'fonts/no-small-capitals', severity: 'note', message };
}
