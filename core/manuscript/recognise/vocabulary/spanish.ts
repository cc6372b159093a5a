/** Spanish heading words and numbers. */
import { numberWords } from './numberWords.ts';
import type { Words } from './words.ts';

const SMALL =
  'uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciseis diecisiete dieciocho diecinueve veinte'.split(
    ' ',
  );
const TENS = ['treinta', 'cuarenta', 'cincuenta', 'sesenta', 'setenta', 'ochenta', 'noventa'];
const UNITS = ['primer', 'segund', 'tercer', 'cuart', 'quint', 'sext', 'septim', 'octav', 'noven'];
const ORDINAL_TENS = [
  'decim',
  'vigesim',
  'trigesim',
  'cuadragesim',
  'quincuagesim',
  'sexagesim',
  'septuagesim',
  'octogesim',
  'nonagesim',
];

function cardinals(value: number): readonly string[] {
  if (value <= 20) return [SMALL[value - 1] ?? ''];
  if (value < 30) return [`veinti${SMALL[value - 21]}`];
  if (value >= 100) return value === 100 ? ['cien', 'ciento'] : cardinals(value - 100).map((form) => `ciento${form}`);
  const tens = TENS[Math.floor(value / 10) - 3] ?? '';
  return [value % 10 === 0 ? tens : `${tens}y${SMALL[(value % 10) - 1]}`];
}

function ordinals(value: number): readonly string[] {
  if (value >= 100) return [];
  const unit = UNITS[(value % 10) - 1] ?? '';
  if (value < 10) {
    const short = value === 1 || value === 3 ? [unit] : [];
    return [...short, `${unit}o`, `${unit}a`, ...(value === 7 ? ['setimo', 'setima'] : []), `${value}o`, `${value}a`];
  }
  const tens = ORDINAL_TENS[Math.floor(value / 10) - 1] ?? '';
  const old = value === 11 ? ['undecimo', 'undecima'] : value === 12 ? ['duodecimo', 'duodecima'] : [];
  if (value % 10 === 0) return [`${tens}o`, `${tens}a`];
  return [...old, `${tens}o${unit}o`, `${tens}a${unit}a`, `${tens}o${unit}`];
}

export const spanish: Words = {
  language: 'es',
  labels: {
    capitulo: 'chapter',
    cap: 'chapter',
    carta: 'chapter',
    canto: 'chapter',
    escena: 'chapter',
    episodio: 'chapter',
    jornada: 'chapter',
    parte: 'part',
    libro: 'part',
    tomo: 'part',
    volumen: 'part',
    acto: 'part',
    interludio: 'interlude',
    apendice: 'appendix',
    anexo: 'appendix',
  },
  short: { cap: 'Cap\u00edtulo' },
  matter: {
    halfTitle: ['portadilla'],
    titlePage: ['portada'],
    copyright: ['creditos', 'derechos de autor', 'copyright', 'aviso legal'],
    dedication: ['dedicatoria'],
    epigraph: ['epigrafe'],
    contents: ['indice', 'contenido', 'tabla de contenidos', 'sumario', 'indice general', 'tabla de contenido'],
    foreword: ['presentacion'],
    preface: ['prefacio'],
    acknowledgments: ['agradecimientos', 'agradecimiento'],
    introduction: ['introduccion'],
    prologue: ['prologo', 'preludio', 'proemio'],
    interlude: ['interludio', 'intermedio', 'entreacto'],
    epilogue: ['epilogo'],
    afterword: ['posfacio', 'palabras finales', 'postfacio'],
    appendix: ['apendice', 'apendices', 'anexo', 'anexos'],
    notes: ['notas'],
    glossary: ['glosario', 'vocabulario'],
    bibliography: ['bibliografia', 'fuentes', 'referencias'],
    index: ['indice alfabetico', 'indice onomastico'],
    discussion: ['preguntas para el debate', 'guia de lectura'],
    aboutAuthor: [
      'sobre el autor',
      'sobre la autora',
      'acerca del autor',
      'acerca de la autora',
      'el autor',
      'la autora',
    ],
    alsoBy: ['del mismo autor', 'de la misma autora', 'otros libros', 'otras obras', 'otros titulos'],
    excerpt: ['adelanto', 'fragmento', 'extracto'],
    colophon: ['colofon'],
    note: [
      'nota',
      'nota del autor',
      'nota de la autora',
      'nota del traductor',
      'nota del editor',
      'al lector',
      'advertencia',
    ],
    other: ['personajes', 'lista de personajes', 'cronologia', 'mapa'],
  },
  begins: {
    alsoBy: ['otros libros de', 'otras obras de', 'otros titulos de', 'tambien de'],
    aboutAuthor: ['sobre el autor', 'sobre la autora', 'acerca del autor'],
  },
  articles: ['el', 'la', 'no', 'num', 'numero'],
  by: ['por', 'de'],
  genres: ['novela', 'una novela', 'relatos', 'cuentos', 'novela corta', 'novela negra'],
  translators: ['traduccion de', 'traducido por', 'traducida por'],
  ends: ['fin', 'el fin', 'finis'],
  dedications: ['a ', 'para ', 'a mi ', 'a mis ', 'en memoria de', 'dedicado a'],
  rights: ['copyright', 'todos los derechos', 'isbn', 'deposito legal', '\u00a9', 'primera edicion', 'impreso en'],
  numbers: () => numberWords(cardinals, ordinals),
  stops: [
    'el',
    'la',
    'los',
    'que',
    'y',
    'en',
    'un',
    'una',
    'de',
    'no',
    'se',
    'con',
    'por',
    'su',
    'lo',
    'las',
    'del',
    'era',
    'para',
  ],
};
