/** What of a page the edition decides and no design: trim, paper, page count. In: an edition; out: it in a line, and the way to it. */
import { useState } from 'react';
import type { Edition } from '#book';
import { paperOf } from '#design';
import { EditionDialog, trimText } from '../press/index.ts';
import { Button, texts } from '../ui/index.ts';
import { design as words } from '../ui/texts/design.en.ts';

export function EditionLine({ edition }: { readonly edition: Edition }) {
  const [isOpen, open] = useState(false);
  return (
    <div className="design-edition">
      <span className="field-help">{saidOf(edition)}</span>
      <Button look="bare" onPress={() => open(true)}>
        {texts.press.docket.settings}
      </Button>
      {isOpen && <EditionDialog edition={edition} onClose={() => open(false)} />}
    </div>
  );
}

function saidOf(edition: Edition): string {
  const notes = words.notesStand(texts.press.notes[edition.notes]);
  if (edition.kind === 'ebook') return notes;
  const large = edition.largePrint ? [words.largePrintAt(edition.largePrint)] : [];
  return [trimText(edition.trim), paperOf(edition).name, ...large, notes].join('; ');
}
