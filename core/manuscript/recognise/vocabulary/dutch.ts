/** Dutch heading words and numbers. */
import { numberWords } from './numberWords.ts';
import type { Words } from './words.ts';

const SMALL =
  'een twee drie vier vijf zes zeven acht negen tien elf twaalf dertien veertien vijftien zestien zeventien achttien negentien'.split(
    ' ',
  );
const TENS = ['twintig', 'dertig', 'veertig', 'vijftig', 'zestig', 'zeventig', 'tachtig', 'negentig'];
const FIRST = ['eerste', 'tweede', 'derde'];

function cardinal(value: number): string {
  if (value < 20) return SMALL[value - 1] ?? '';
  if (value >= 100) return value === 100 ? 'honderd' : `honderd${cardinal(value - 100)}`;
  const tens = TENS[Math.floor(value / 10) - 2] ?? '';
  return value % 10 === 0 ? tens : `${SMALL[(value % 10) - 1]}en${tens}`;
}

function ordinals(value: number): readonly string[] {
  const numeric = [`${value}e`, `${value}de`, `${value}ste`];
  if (value <= 3) return [FIRST[value - 1] ?? '', ...numeric];
  return [value === 8 || value >= 20 ? `${cardinal(value)}ste` : `${cardinal(value)}de`, ...numeric];
}

export const dutch: Words = {
  language: 'nl',
  labels: {
    hoofdstuk: 'chapter',
    brief: 'chapter',
    scene: 'chapter',
    zang: 'chapter',
    deel: 'part',
    boek: 'part',
    band: 'part',
    tussenspel: 'interlude',
    bijlage: 'appendix',
  },
  short: {},
  matter: {
    copyright: ['colofon', 'copyright'],
    dedication: ['opdracht'],
    epigraph: ['motto'],
    contents: ['inhoud', 'inhoudsopgave'],
    foreword: ['woord vooraf'],
    preface: ['voorwoord'],
    acknowledgments: ['dankwoord', 'dankbetuiging'],
    introduction: ['inleiding'],
    prologue: ['proloog'],
    interlude: ['tussenspel', 'intermezzo'],
    epilogue: ['epiloog'],
    afterword: ['nawoord'],
    appendix: ['bijlage', 'bijlagen'],
    notes: ['noten', 'aantekeningen', 'voetnoten'],
    glossary: ['woordenlijst', 'verklarende woordenlijst'],
    bibliography: ['literatuur', 'bibliografie', 'bronnen'],
    index: ['register'],
    aboutAuthor: ['over de auteur', 'over de schrijver', 'de auteur'],
    alsoBy: ['van dezelfde auteur', 'andere boeken'],
    excerpt: ['leesfragment', 'fragment'],
    note: ['noot van de auteur', 'aan de lezer', 'verantwoording'],
    other: ['personages', 'tijdlijn'],
  },
  begins: { alsoBy: ['andere boeken van', 'eerder verschenen'] },
  articles: ['het', 'de', 'nr'],
  by: ['door', 'van'],
  genres: ['roman', 'een roman', 'verhalen', 'novelle', 'thriller'],
  translators: ['vertaald door', 'vertaling'],
  ends: ['einde', 'het einde', 'finis'],
  dedications: ['voor ', 'aan ', 'ter nagedachtenis'],
  rights: ['copyright', 'alle rechten voorbehouden', 'isbn', '\u00a9', 'eerste druk'],
  numbers: () => numberWords((value) => [cardinal(value)], ordinals),
  stops: [
    'de',
    'het',
    'een',
    'en',
    'van',
    'ik',
    'dat',
    'niet',
    'zij',
    'hij',
    'was',
    'op',
    'te',
    'met',
    'zijn',
    'voor',
    'ze',
    'er',
  ],
};
