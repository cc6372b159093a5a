/** Names of the settings of a design, each with a line that says what it does. */
export interface SettingText {
  readonly name: string;
  readonly help: string;
}

const opener = {
  sink: text('Sink', 'White above the opening, as a share of the page’s lines.'),
  align: text('Where it stands', 'Number, title and subtitle stand at this edge or in the middle.'),
  number: text('Numbers', 'How the number is written, where there is one.'),
  showLabel: text('The word before the number', '“Chapter” or “Part”, where the manuscript had it.'),
  numberLook: text('Number above a title', 'The line with the number, where a title follows.'),
  loneNumberLook: text('Number that stands alone', 'The number, where there is no title.'),
  titleLook: text('Title', 'The title itself.'),
  subtitleLook: text('Subtitle', 'The line below the title.'),
  ornament: text('Ornament', 'A drawn mark that goes with the title.'),
  ornamentPlace: text('Place of the ornament', 'Above or below the title.'),
  spaceAfter: text('White before the text', 'Lines between the opening and the first line of text.'),
};

export const settingTexts = {
  'text.family': text('Face of the text', 'The typefaces of running text, and of titles, numbers, heads and folios.'),
  'display.family': text('Face of titles', 'The typeface of titles, numbers, heads and folios.'),
  'text.size': text('Size', 'At the trim that the design is drawn for; other trims get theirs in proportion.'),
  'text.leading': text(
    'Leading',
    'From one baseline to the next; a fifth to two fifths more than the size reads well.',
  ),
  'text.indent': text('First-line indent', 'Of every paragraph but the first after an opening or a break.'),
  'text.paragraphs': text('Paragraphs', 'An indent suits stories; a line of white suits handbooks.'),
  'text.flushFirst': text(
    'First paragraphs without indent',
    'After an opening, a subhead or a break, where nothing has to be told apart.',
  ),
  'text.justify': text('Lines of equal length', 'Off: the right edge is ragged.'),
  'text.hyphenate': text('Divide words', 'Words are divided at the end of a line by the rules of their language.'),
  'text.hang': text(
    'Hanging punctuation',
    'Stops and hyphens reach a little into the margin, so that the edge looks straight.',
  ),
  'text.features': text('Figures and ligatures', 'Which forms of its figures and ligatures the face shows.'),
  'text.wordSpace': text('Word space', 'The space that a line starts from; the face’s own where that is wider.'),
  'text.scaling': text(
    'Letters may widen',
    'How much letters may widen, and stand apart by a hair, where word spaces would gape.',
  ),
  'text.character': text('Mean width of a letter', 'Measured on the face: by it sizes are fitted to other trims.'),
  ...under('opener', opener),
  ...under('part', opener),
  ...under('matter', opener),
  'recto.parts': text('Begin on a right-hand page', 'Each part title; the page before stays blank where it must.'),
  'recto.chapters': text('Begin on a right-hand page', 'Each chapter; otherwise on the next page.'),
  'leadIn.kind': text('First words of a chapter', 'How the text sets out after an opening.'),
  'leadIn.dropLines': text('Lines of the initial', 'How deep a dropped initial reaches; ebooks give it two.'),
  'leadIn.afterDrop': text(
    'Small capitals after the initial',
    'The first phrase leads over from the large letter to the text.',
  ),
  'leadIn.spacing': text('Space between small capitals', 'They read better a little apart: 0.05 to 0.1 em.'),
  'sceneBreak.mark': text(
    'Break shown by',
    'A break at an edge of a page shows its ornament in any case, and so do ebooks.',
  ),
  'sceneBreak.ornament': text('Ornament between scenes', 'The mark that stands between scenes.'),
  'sceneBreak.lines': text('Room for the break', 'Lines of white.'),
  'subheads.0': text('Subhead, first rank', 'Headings inside a chapter.'),
  'subheads.1': text('Subhead, second rank', 'Headings below those.'),
  'subheads.2': text('Subhead, third rank', 'Headings below those again.'),
  subheadAlign: text('Where subheads stand', 'All ranks alike.'),
  'subheadSpace.above': text('White above subheads', 'Of the first rank; the others have one line less.'),
  'subheadSpace.below': text('White below subheads', 'Of the first rank; the others have none.'),
  'heads.verso': text('Left-hand head', 'What stands above the text of left-hand pages.'),
  'heads.recto': text('Right-hand head', 'What stands above the text of right-hand pages.'),
  'heads.side': text('Where heads stand', 'In the width of the text.'),
  'heads.look': text('Look of the heads', 'Small and quiet: heads are looked up and not read.'),
  'heads.distance': text('From head to text', 'Baseline to baseline, as far as the top margin allows.'),
  'heads.rule': text('Rule below the head', 'A thin line as long as the lines of the text.'),
  'folios.place': text('Folios', 'Where the page numbers stand.'),
  'folios.onOpeners': text('Folios on openings too', 'At the foot of pages that open a chapter.'),
  'folios.size': text('Size of the folios', 'In proportion to the text.'),
  'titlePage.align': text('Where its lines stand', 'Of title page and half title.'),
  'titlePage.sink': text('Sink of the title', 'White above title and half title, as a share of the page’s lines.'),
  'titlePage.title': text('Title of the book', 'A long one is set smaller by itself.'),
  'titlePage.subtitle': text('Subtitle of the book', 'Below the title.'),
  'titlePage.author': text('Author', 'Below the ornament.'),
  'titlePage.publisher': text('Publisher', 'At the foot of the title page.'),
  'titlePage.ornament': text('Ornament of the title page', 'Between title and author.'),
  halfTitle: text('Half title', 'The title alone on the first page.'),
  'dedication.italic': text('Dedication in italic', 'The few lines of the dedication.'),
  'dedication.align': text('Where the dedication stands', 'Its lines in the width of the text.'),
  'dedication.sink': text('Sink of the dedication', 'White above it, and above an epigraph on a page of its own.'),
  'contents.leaders': text('Dots to the page numbers', 'A row of dots leads the eye across.'),
  'contents.part': text('Parts in the contents', 'The lines that name the parts.'),
  'quotation.indent': text('Indent of quotations', 'On both sides.'),
  'quotation.size': text('Size of quotations', 'Long quotations, and notes after the text.'),
  'quotation.italic': text('Quotations in italic', 'Italics within them turn upright.'),
  'attribution.align': text('Where sources stand', 'Who said it, below quotations, epigraphs and verse.'),
  'attribution.italic': text('Sources in italic', 'Titles of works within them turn upright.'),
  'epigraph.indent': text('Indent of epigraphs', 'On both sides; a short one stands in the middle.'),
  'epigraph.size': text('Size of epigraphs', 'In proportion to the text.'),
  'epigraph.italic': text('Epigraphs in italic', 'The quoted words; who said them stands upright.'),
  'verse.indent': text('Where verse stands', 'At an indent, or in the middle by its longest line; ebooks indent it.'),
  'verse.step': text('Step of indented lines', 'For each step that a line of verse is moved in.'),
  'verse.turnover': text('Turnover', 'Indent of what is left of a line too long for the page.'),
  'verse.size': text('Size of verse', 'Of verse that stands in running text.'),
  'verse.italic': text('Verse in italic', 'Italics within it turn upright.'),
  'lists.indent': text('Indent of lists', 'The figure or bullet stands in it.'),
  'tables.size': text('Size of tables', 'In proportion to the text.'),
  'tables.rules': text('Rules of tables', 'Thin lines that guide the eye.'),
  'setOff.indent': text('Indent of letters and documents', 'On both sides; telegrams, messages and signs too.'),
  'setOff.italic': text('Letters and documents in italic', 'Italics within them turn upright.'),
  'notes.size': text('Size of notes', 'At the foot of the page.'),
  'notes.leading': text('Leading of notes', 'In proportion to that of the text.'),
  'notes.rule': text('Rule above the notes', 'A thin line between text and notes.'),
  'caption.size': text('Size of captions', 'Below pictures.'),
  'caption.italic': text('Captions in italic', 'Italics within them turn upright.'),
  'caption.align': text('Where captions stand', 'Below their picture.'),
  'imprint.size': text('Size of the copyright page', 'In proportion to the text.'),
  'imprint.leading': text('Leading of the copyright page', 'In proportion to that of the text.'),
  'imprint.align': text('Where its lines stand', 'In the width of the text.'),
  'imprint.place': text('Place of the copyright text', 'At which end of its page it stands; ebooks begin at the head.'),
  'margins.inner': text('Inner margin', 'Toward the spine; a thick book widens it by itself.'),
  'margins.outer': text('Outer margin', 'Where thumbs hold the book.'),
  'margins.top': text('Top margin', 'Down to the capitals of the first line; the head stands in it.'),
  'margins.bottom': text('Bottom margin', 'At least this below the last line; a folio stands in it.'),
  'trim.width': text(
    'Width it is drawn for',
    'Size and margins hold at this trim; other trims get theirs in proportion.',
  ),
  'trim.height': text('Height it is drawn for', 'The trim of an edition itself is set on the press desk.'),
};

function text(name: string, help: string): SettingText {
  return { name, help };
}

type Under<Prefix extends string, Texts> = { [Name in keyof Texts & string as `${Prefix}.${Name}`]: SettingText };

function under<Prefix extends string, Texts extends object>(prefix: Prefix, texts: Texts): Under<Prefix, Texts> {
  const entries = Object.entries(texts).map(([name, each]) => [`${prefix}.${name}`, each]);
  return Object.fromEntries(entries) as Under<Prefix, Texts>;
}
