/** A run (w:r): its look, and its content handed on to the paragraph piece by piece. */
import { DrawingScope } from './drawing.ts';
import { type InlineSink, TextScope } from './inlines.ts';
import { HIDDEN, type Look, RunPropertyScope, withDirect } from './runProperties.ts';
import type { NotePlace } from './story.ts';
import { symbolCharacter } from './symbols.ts';
import { integer } from './values.ts';
import type { Scope, Tag } from './xml.ts';

const UNKNOWN_SYMBOL = '\uFFFD';

export class RunScope implements Scope {
  private look: Look;
  /** A note's own mark follows as text of this run; notes are marked anew, so a mere sign is dropped. */
  private customMark = false;

  constructor(private readonly paragraph: InlineSink) {
    this.look = paragraph.styleLook(null);
  }

  open(name: string, tag: Tag): Scope | null {
    const { paragraph, look } = this;
    const { remarks } = paragraph.story.shared;
    switch (name) {
      case 'w:t':
      case 'm:t':
        return this.openText();
      case 'w:rPr':
        return new RunPropertyScope((direct) => {
          this.look = withDirect(paragraph.styleLook(direct.style ?? null), direct);
        });
      case 'w:tab':
      case 'w:ptab':
        paragraph.addInline({ kind: 'tab' }, look);
        return null;
      case 'w:br':
        paragraph.addInline({ kind: breakKind(tag.get('w:type')) }, look);
        return null;
      case 'w:cr':
        paragraph.addInline({ kind: 'lineBreak' }, look);
        return null;
      case 'w:noBreakHyphen':
        paragraph.addText('\u2011', look);
        return null;
      case 'w:sym':
        return this.addSymbol(tag);
      case 'w:fldChar':
        return this.markField(tag.get('w:fldCharType'));
      case 'w:instrText':
        return new InstructionScope(this.paragraph);
      case 'w:footnoteReference':
        return this.addNote('foot', tag);
      case 'w:endnoteReference':
        return this.addNote('end', tag);
      case 'w:commentReference':
        remarks.add('comment');
        return null;
      case 'w:drawing':
      case 'w:pict':
      case 'w:object':
        if (name === 'w:object') remarks.add('embedded-object');
        return new DrawingScope(paragraph, (look.flags & HIDDEN) !== 0);
      case 'w:r':
        return new RunScope(paragraph);
      case 'w:rt':
        remarks.add('ruby');
        return null;
      case 'w:del':
      case 'w:moveFrom':
      case 'w:delText':
      case 'w:delInstrText':
      case 'w:rubyPr':
      case 'm:rPr':
        return null;
      default:
        return this;
    }
  }

  private openText(): Scope {
    const { look, paragraph } = this;
    if (this.customMark) return new MarkScope(paragraph, look);
    if (look.flags & HIDDEN) paragraph.story.shared.remarks.add('hidden-text');
    const pictorial = look.font !== null && /^(symbol|wingdings)/i.test(look.font);
    return pictorial ? new PictorialTextScope(paragraph, look) : new TextScope(paragraph, look);
  }

  private addSymbol(tag: Tag): null {
    const code = Number.parseInt(tag.get('w:char') ?? '', 16);
    const character = Number.isNaN(code) ? null : symbolCharacter(tag.get('w:font') ?? '', code);
    if (character === null) this.paragraph.story.shared.remarks.add('unknown-symbol');
    this.paragraph.addText(character ?? UNKNOWN_SYMBOL, this.look);
    return null;
  }

  private markField(type: string | undefined): null {
    const { fields } = this.paragraph.story;
    if (type === 'begin') fields.begin();
    else if (type === 'separate') fields.separate();
    else if (type === 'end') fields.end();
    return null;
  }

  private addNote(place: NotePlace, tag: Tag): null {
    const custom = tag.get('w:customMarkFollows');
    this.customMark = custom === '1' || custom === 'true' || custom === 'on';
    const note = this.paragraph.story.noteInline(place, String(integer(tag.get('w:id')) ?? ''));
    if (note) this.paragraph.addInline(note, this.look);
    return null;
  }
}

function breakKind(type: string | undefined): 'pageBreak' | 'lineBreak' {
  return type === 'page' || type === 'column' ? 'pageBreak' : 'lineBreak';
}

class InstructionScope implements Scope {
  constructor(private readonly paragraph: InlineSink) {}

  open(): null {
    return null;
  }

  text(text: string): void {
    this.paragraph.story.fields.addCode(text);
  }
}

/** Text in a pictorial font: private-use characters stand for that font's pictures. */
class PictorialTextScope implements Scope {
  constructor(
    private readonly paragraph: InlineSink,
    private readonly look: Look,
  ) {}

  open(): null {
    return null;
  }

  text(text: string): void {
    const shown = text.replace(/[\uF000-\uF0FF]/g, (character) => {
      const known = symbolCharacter(this.look.font ?? '', character.charCodeAt(0));
      if (known === null) this.paragraph.story.shared.remarks.add('unknown-symbol');
      return known ?? UNKNOWN_SYMBOL;
    });
    this.paragraph.addText(shown, this.look);
  }
}

/** The author's own mark for a note: signs go, words stay. */
class MarkScope implements Scope {
  constructor(
    private readonly paragraph: InlineSink,
    private readonly look: Look,
  ) {}

  open(): null {
    return null;
  }

  text(text: string): void {
    if (/[\p{L}\p{N}]/u.test(text)) this.paragraph.addText(text, this.look);
  }
}
