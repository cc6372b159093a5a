/** Texts of the choice of fonts and of the mark between scenes. */
export const faces = {
  face: 'Face of the text',
  displayFace: 'Face of titles',
  bundled: 'With the program',
  installed: 'On this computer',
  missing: 'Not on this computer',
  looking: 'Looking for the fonts of this computer …',
  find: 'Type to find a font.',
  noneFound: 'No font has that in its name.',
  standsIn: (family: string): string => `“${family}” is not on this computer; another font stands in for it.`,
  lacks: (names: readonly string[]): string => `Lacks ${listed(names)}`,
  lacking: { italic: 'italic', bold: 'bold', smallCapitals: 'small capitals', oldStyle: 'old-style figures' },
  cannot: 'May not be embedded',
  cannotSet: 'Can’t be set',
  onlyPreview: 'Reading and printing only',
  noLetters: 'Has no letters of English',
  terms: 'Terms that the font names',
  noTerms: 'The font names no terms. Look where you got it from.',
  termsAt: (address: string): string => `Read them at ${address}`,
  care: 'An ebook hands the font on to every reader: your licence has to permit that.',
  mark: 'Mark between scenes',
  markHelp: 'A drawn ornament, a character of a font, or a picture of your own.',
  drawn: 'Drawn ornaments',
  character: 'Choose a character …',
  characterTitle: 'Characters of fonts',
  characterHelp: 'From the fonts of this design and those that help out with single characters.',
  characterOf: (name: string, family: string): string => `${name}, ${family}`,
  drawing: 'Drawing the characters …',
  picture: 'Choose a picture …',
  aCharacter: (character: string): string => `the character ${character}`,
  aPicture: 'a picture of your own',
  ownCharacter: (character: string, family: string): string => `The character ${character} of ${family}`,
  ownPicture: (name: string): string => `The picture “${name}”`,
  lostPicture: 'The picture is not in this book; the drawn ornament stands in for it.',
  pictureHelp:
    'PNG or JPEG. Black drawings print sharply from 600 pixels to the inch, all else from 300. On a dark screen a black drawing without a ground of its own is not seen.',
  pictureSize: (width: number, height: number, inches: number): string =>
    `${width} × ${height} pixels: ${Math.floor(height / inches)} to the inch at this height.`,
  colour: 'It has colour, which a book printed in black shows as grey.',
  characterSize: 'Size of the character',
  pictureHeight: 'Height of the picture',
};

function listed(names: readonly string[]): string {
  const last = names.at(-1) ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} and ${last}`;
}
