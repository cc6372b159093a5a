export { createSetter } from './setter.ts';
export { BREAK_SETTINGS, type BreakSettings } from './settings.ts';
export type {
  BreakRequest,
  BrokenLine,
  BrokenParagraph,
  LengthChoice,
  LengthsRequest,
  MissingCharacter,
  ParagraphSetter,
  ParagraphShape,
  Placing,
  SetterParts,
  SingleLine,
  Span,
  StyledText,
  TextStyle,
} from './types.ts';
