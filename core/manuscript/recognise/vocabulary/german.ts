/** German heading words and numbers. */
import { numberWords } from './numberWords.ts';
import type { Words } from './words.ts';

const SMALL =
  'eins zwei drei vier funf sechs sieben acht neun zehn elf zwolf dreizehn vierzehn funfzehn sechzehn siebzehn achtzehn neunzehn'.split(
    ' ',
  );
const TENS = ['zwanzig', 'dreissig', 'vierzig', 'funfzig', 'sechzig', 'siebzig', 'achtzig', 'neunzig'];
const ENDINGS = ['e', 'er', 'es', 'en'];

function belowHundred(value: number): string {
  if (value < 20) return SMALL[value - 1] ?? '';
  const tens = TENS[Math.floor(value / 10) - 2] ?? '';
  const unit = value % 10;
  if (unit === 0) return tens;
  return `${unit === 1 ? 'ein' : SMALL[unit - 1]}und${tens}`;
}

/** The same word as it may be typed: sharp s or ss, umlaut written out. */
function spellings(word: string): readonly string[] {
  const forms = [word];
  if (word.includes('dreissig')) forms.push(word.replace('dreissig', 'drei\u00dfig'));
  if (word.includes('funf')) forms.push(word.replace('funf', 'fuenf'));
  if (word.includes('zwolf')) forms.push(word.replace('zwolf', 'zwoelf'));
  return forms;
}

function cardinals(value: number): readonly string[] {
  if (value < 100) return spellings(belowHundred(value));
  const rest = value - 100;
  const heads = ['hundert', 'einhundert'];
  if (rest === 0) return heads;
  return heads.flatMap((head) => [`${head}${belowHundred(rest)}`, `${head}und${belowHundred(rest)}`]);
}

function ordinalStems(value: number): readonly string[] {
  if (value === 1) return ['erst'];
  if (value === 3) return ['dritt'];
  if (value === 7) return ['siebt', 'siebent'];
  if (value === 8) return ['acht'];
  if (value < 20) return spellings(`${belowHundred(value)}t`);
  return cardinals(value).map((form) => `${form}st`);
}

export const german: Words = {
  language: 'de',
  labels: {
    kapitel: 'chapter',
    kap: 'chapter',
    brief: 'chapter',
    gesang: 'chapter',
    szene: 'chapter',
    episode: 'chapter',
    abenteuer: 'chapter',
    abschnitt: 'chapter',
    teil: 'part',
    buch: 'part',
    band: 'part',
    akt: 'part',
    aufzug: 'part',
    zwischenspiel: 'interlude',
    anhang: 'appendix',
  },
  short: { kap: 'Kapitel' },
  matter: {
    halfTitle: ['schmutztitel'],
    titlePage: ['titelseite'],
    copyright: ['impressum', 'copyright', 'urheberrecht'],
    dedication: ['widmung'],
    epigraph: ['motto', 'epigraph'],
    contents: ['inhalt', 'inhaltsverzeichnis', 'inhaltsubersicht'],
    foreword: ['geleitwort', 'vorwort', 'zum geleit'],
    preface: ['vorrede', 'vorbemerkung'],
    acknowledgments: ['danksagung', 'danksagungen', 'dank'],
    introduction: ['einleitung', 'einfuhrung'],
    prologue: ['prolog', 'vorspiel'],
    interlude: ['zwischenspiel', 'intermezzo', 'interludium'],
    epilogue: ['epilog', 'nachspiel'],
    afterword: ['nachwort', 'schlusswort'],
    appendix: ['anhang', 'anhange'],
    notes: ['anmerkungen', 'fu\u00dfnoten', 'endnoten'],
    glossary: ['glossar', 'worterverzeichnis'],
    bibliography: ['literaturverzeichnis', 'literatur', 'bibliographie', 'bibliografie', 'quellen'],
    index: ['register', 'index', 'personenregister', 'stichwortverzeichnis'],
    discussion: ['fragen zur diskussion', 'lesekreisfragen'],
    aboutAuthor: [
      'uber den autor',
      'uber die autorin',
      'der autor',
      'die autorin',
      'uber die autoren',
      'zum autor',
      'zur autorin',
      'zur person',
    ],
    alsoBy: ['weitere bucher', 'weitere werke', 'weitere titel', 'vom selben autor', 'von derselben autorin'],
    excerpt: ['leseprobe'],
    colophon: ['kolophon'],
    note: ['anmerkung', 'anmerkung des autors', 'anmerkung der autorin', 'hinweis', 'an den leser', 'nachbemerkung'],
    other: ['personen', 'personenverzeichnis', 'die personen', 'karte', 'zeittafel'],
  },
  begins: {
    alsoBy: ['weitere bucher von', 'weitere werke von', 'weitere titel von', 'ebenfalls von', 'von demselben autor'],
    aboutAuthor: ['uber den autor', 'uber die autorin'],
    excerpt: ['leseprobe aus'],
  },
  articles: ['das', 'der', 'die', 'nr', 'nr.', 'nummer'],
  by: ['von'],
  genres: [
    'roman',
    'ein roman',
    'erzahlung',
    'erzahlungen',
    'novelle',
    'kriminalroman',
    'krimi',
    'thriller',
    'geschichten',
  ],
  translators: ['ubersetzt von', 'aus dem englischen von', 'aus dem franzosischen von', 'deutsch von'],
  ends: ['ende', 'das ende', 'finis'],
  dedications: ['fur ', 'meiner ', 'meinem ', 'meinen ', 'in gedenken', 'in erinnerung an', 'gewidmet'],
  rights: [
    'copyright',
    'alle rechte vorbehalten',
    'isbn',
    '\u00a9',
    'auflage',
    'impressum',
    'gedruckt in',
    'printed in',
  ],
  numbers: () =>
    numberWords(cardinals, (value) => ordinalStems(value).flatMap((stem) => ENDINGS.map((ending) => stem + ending))),
  stops: [
    'der',
    'die',
    'und',
    'das',
    'ich',
    'nicht',
    'sie',
    'ist',
    'er',
    'den',
    'ein',
    'eine',
    'mit',
    'zu',
    'sich',
    'auf',
    'dem',
    'war',
    'es',
  ],
};
