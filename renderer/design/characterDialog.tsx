/** The characters of fonts that can stand between scenes, to choose one. In: families; out: a character and its family. */
import { Collection, Header, ListBox, ListBoxItem, ListBoxSection } from 'react-aria-components';
import { Button, Dialog, texts } from '../ui/index.ts';
import { faces as words } from '../ui/texts/faces.en.ts';
import { markName } from '../ui/texts/markNames.en.ts';
import type { GlyphMark } from '../worker/index.ts';
import { MarkDrawing } from './markDrawing.tsx';
import { useMarks } from './useMarks.ts';

export interface CharacterDialogProps {
  readonly families: readonly string[];
  readonly onChoose: (mark: GlyphMark) => void;
  readonly onClose: () => void;
}

export function CharacterDialog({ families, onChoose, onClose }: CharacterDialogProps) {
  const marks = useMarks(families);
  const groups = groupsOf(marks ?? []);
  return (
    <Dialog
      title={words.characterTitle}
      onClose={onClose}
      wide
      actions={<Button onPress={onClose}>{texts.common.cancel}</Button>}
    >
      <p className="field-help">{marks ? words.characterHelp : words.drawing}</p>
      <ListBox
        aria-label={words.characterTitle}
        className="mark-grid"
        layout="grid"
        items={groups}
        onAction={(key) => {
          const mark = marks?.find((each) => keyOf(each) === key);
          if (mark) onChoose(mark);
        }}
      >
        {(group) => (
          <ListBoxSection id={group.family} className="mark-group">
            <Header className="menu-header">{group.family}</Header>
            <Collection items={group.marks.map((mark) => ({ id: keyOf(mark), mark }))}>
              {({ id, mark }) => (
                <ListBoxItem
                  id={id}
                  className="mark-tile"
                  textValue={words.characterOf(markName(mark.character), mark.family)}
                  aria-label={words.characterOf(markName(mark.character), mark.family)}
                >
                  <MarkDrawing ornament={mark.ornament} />
                </ListBoxItem>
              )}
            </Collection>
          </ListBoxSection>
        )}
      </ListBox>
    </Dialog>
  );
}

interface MarkGroup {
  readonly family: string;
  readonly marks: readonly GlyphMark[];
}

function groupsOf(marks: readonly GlyphMark[]): readonly MarkGroup[] {
  const families = [...new Set(marks.map(({ family }) => family))];
  return families.map((family) => ({ family, marks: marks.filter((each) => each.family === family) }));
}

function keyOf({ family, character }: GlyphMark): string {
  return `${character} ${family}`;
}
