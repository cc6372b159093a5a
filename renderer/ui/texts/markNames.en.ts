/** What characters between scenes are called: the trade's names for the usual ones, numbers for the others. */
const NAMES: Readonly<Record<string, string>> = {
  '⁂': 'Asterism',
  '⁑': 'Two asterisks',
  '⁕': 'Flower punctuation mark',
  '★': 'Black star',
  '☆': 'White star',
  '☙': 'Floral heart, turned to the left',
  '❦': 'Floral heart',
  '❧': 'Floral heart, turned to the right',
  '❡': 'Curved pilcrow',
  '❤': 'Heart',
  '❖': 'Diamond of four lozenges',
  '✠': 'Maltese cross',
  '✤': 'Four balloons',
  '✥': 'Four clubs',
  '✦': 'Black four-pointed star',
  '✧': 'White four-pointed star',
  '✶': 'Six-pointed star',
  '✽': 'Heavy teardrop asterisk',
  '✾': 'Six petals',
  '✿': 'Black florette',
  '❀': 'White florette',
  '❁': 'Eight petals, outlined',
  '❄': 'Snowflake',
  '❊': 'Eight teardrop spokes',
  '⚜': 'Fleur-de-lis',
  '⚘': 'Flower',
  '*': 'Asterisk',
  '§': 'Section sign',
  '¶': 'Pilcrow',
  '†': 'Dagger',
  '‡': 'Double dagger',
  '•': 'Bullet',
  '·': 'Middle dot',
  '~': 'Tilde',
  '∗': 'Asterisk operator',
};

export function markName(character: string): string {
  const code = (character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
  const name = NAMES[character];
  return name === undefined ? `Character U+${code}` : `${name} (U+${code})`;
}
