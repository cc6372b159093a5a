/** What every dialog of the text is given. */
import type { SectionEditor } from '../sectionEditor.ts';

export interface TextDialogProps {
  readonly editor: SectionEditor;
  readonly onClose: () => void;
}
