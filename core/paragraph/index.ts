export type {
  BreakRequest,
  BrokenLine,
  BrokenParagraph,
  ParagraphShape,
  Span,
  StyledText,
  TextStyle,
} from './types.ts';
