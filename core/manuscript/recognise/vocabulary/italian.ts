/** Italian heading words and numbers. */
import { numberWords } from './numberWords.ts';
import type { Words } from './words.ts';

const SMALL =
  'uno due tre quattro cinque sei sette otto nove dieci undici dodici tredici quattordici quindici sedici diciassette diciotto diciannove'.split(
    ' ',
  );
const TENS = ['venti', 'trenta', 'quaranta', 'cinquanta', 'sessanta', 'settanta', 'ottanta', 'novanta'];
const FIRST_TEN = ['prim', 'second', 'terz', 'quart', 'quint', 'sest', 'settim', 'ottav', 'non', 'decim'];

function cardinal(value: number): string {
  if (value < 20) return SMALL[value - 1] ?? '';
  if (value >= 100) return value === 100 ? 'cento' : `cento${cardinal(value - 100)}`;
  const tens = TENS[Math.floor(value / 10) - 2] ?? '';
  const unit = value % 10;
  if (unit === 0) return tens;
  return (unit === 1 || unit === 8 ? tens.slice(0, -1) : tens) + SMALL[unit - 1];
}

function ordinals(value: number): readonly string[] {
  const numeric = [`${value}o`, `${value}a`];
  if (value <= 10) return [`${FIRST_TEN[value - 1]}o`, `${FIRST_TEN[value - 1]}a`, ...numeric];
  const whole = cardinal(value);
  const stem = whole.endsWith('tre') || whole.endsWith('sei') ? whole : whole.slice(0, -1);
  const old = value < 20 ? [`decimo${FIRST_TEN[value - 11]}o`, `decima${FIRST_TEN[value - 11]}a`] : [];
  return [`${stem}esimo`, `${stem}esima`, ...old, ...numeric];
}

export const italian: Words = {
  language: 'it',
  labels: {
    capitolo: 'chapter',
    cap: 'chapter',
    lettera: 'chapter',
    canto: 'chapter',
    scena: 'chapter',
    episodio: 'chapter',
    parte: 'part',
    libro: 'part',
    tomo: 'part',
    volume: 'part',
    atto: 'part',
    interludio: 'interlude',
    appendice: 'appendix',
  },
  short: { cap: 'Capitolo' },
  matter: {
    copyright: ['copyright', 'colofone', 'note legali'],
    dedication: ['dedica'],
    epigraph: ['epigrafe'],
    contents: ['indice', 'sommario', 'indice generale'],
    foreword: ['presentazione', 'premessa'],
    preface: ['prefazione'],
    acknowledgments: ['ringraziamenti', 'ringraziamento'],
    introduction: ['introduzione'],
    prologue: ['prologo', 'preludio'],
    interlude: ['interludio', 'intermezzo'],
    epilogue: ['epilogo'],
    afterword: ['postfazione', 'poscritto'],
    appendix: ['appendice', 'appendici'],
    notes: ['note'],
    glossary: ['glossario'],
    bibliography: ['bibliografia', 'fonti'],
    index: ['indice analitico', 'indice dei nomi'],
    aboutAuthor: ["l'autore", "l'autrice", "sull'autore", "sull'autrice", "nota sull'autore"],
    alsoBy: ['dello stesso autore', 'della stessa autrice', 'altri libri'],
    excerpt: ['estratto', 'anteprima'],
    note: ["nota dell'autore", "nota dell'autrice", 'nota del traduttore', 'avvertenza', 'al lettore', 'nota'],
    other: ['personaggi', 'cronologia'],
  },
  begins: { alsoBy: ['dello stesso autore', 'altri libri di'] },
  articles: ['il', 'la', 'n', 'numero'],
  by: ['di'],
  genres: ['romanzo', 'un romanzo', 'racconti', 'racconto', 'novelle'],
  translators: ['traduzione di', 'tradotto da'],
  ends: ['fine', 'la fine', 'finis'],
  dedications: ['a ', 'per ', 'ai miei', 'alla memoria di'],
  rights: ['copyright', 'tutti i diritti', 'isbn', '\u00a9', 'prima edizione', 'stampato in'],
  numbers: () => numberWords((value) => (value === 23 ? ['ventitre'] : [cardinal(value)]), ordinals),
  stops: [
    'il',
    'che',
    'di',
    'e',
    'la',
    'non',
    'un',
    'una',
    'per',
    'si',
    'con',
    'le',
    'gli',
    'era',
    'della',
    'del',
    'lo',
    'ma',
  ],
};
