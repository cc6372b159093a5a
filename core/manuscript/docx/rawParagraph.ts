/** Puts a paragraph together from what it says itself, its style and its list. */
import type { RawInline, RawParagraph } from '../raw.ts';
import type { Mutable } from './mutable.ts';
import type { ParagraphProperties } from './paragraphProperties.ts';
import type { Story } from './story.ts';
import type { ResolvedStyle } from './styles.ts';

/** A paragraph from what it says itself, its style and its list, weakest last. */
export function paragraphOf(
  story: Story,
  direct: ParagraphProperties,
  inlines: readonly RawInline[],
  inContentsField: boolean,
): Mutable<RawParagraph> {
  const { styles } = story.shared;
  const style = styles.paragraphStyle(direct.style ?? null);
  const numbered = numberingOf(story, direct, style);
  const own = { ...style.paragraph, ...numbered.beforeStyle, ...direct };
  const size = styles.look(direct.style ?? null, null).size;
  const indent = (length: number | undefined, chars: number | undefined) =>
    chars ? (chars / 100) * size : (length ?? 0);
  const outline = own.outline;
  return {
    kind: 'paragraph',
    inlines,
    style: style.name,
    outlineLevel: outline === undefined || outline < 0 || outline > 8 ? null : outline + 1,
    align: own.align ?? 'start',
    indentFirst: indent(own.first, own.firstChars),
    indentStart: indent(own.start, own.startChars),
    indentEnd: indent(own.end, own.endChars),
    spaceBefore: own.before ?? 0,
    spaceAfter: own.after ?? 0,
    pageBreakBefore: own.pageBreakBefore ?? false,
    sectionBreakBefore: false,
    list: numbered.list,
    numberText: numbered.label,
    inContentsField,
    rule: own.rule ?? false,
  };
}

/** The list a paragraph is in, and the indents that its level adds (under a style's own where the style numbers). */
function numberingOf(story: Story, direct: ParagraphProperties, style: ResolvedStyle) {
  const { numbering } = story.shared;
  const id = direct.numbering ?? style.paragraph.numbering ?? 0;
  if (id === 0) return { list: null, label: null, beforeStyle: {} };
  const byStyle = style.numberedBy === null ? null : numbering.levelOfStyle(id, style.numberedBy);
  const level = direct.level ?? byStyle ?? style.paragraph.level ?? 0;
  const levelLook = numbering.level(id, level)?.paragraph ?? {};
  const beforeStyle = direct.numbering === undefined ? { ...levelLook, ...style.paragraph } : levelLook;
  return { ...numbering.next(id, level), beforeStyle };
}
