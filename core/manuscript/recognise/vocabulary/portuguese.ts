/** Portuguese heading words and numbers. */
import { numberWords } from './numberWords.ts';
import type { Words } from './words.ts';

const SMALL =
  'um dois tres quatro cinco seis sete oito nove dez onze doze treze catorze quinze dezesseis dezessete dezoito dezenove'.split(
    ' ',
  );
const TENS = ['vinte', 'trinta', 'quarenta', 'cinquenta', 'sessenta', 'setenta', 'oitenta', 'noventa'];
const UNITS = ['primeir', 'segund', 'terceir', 'quart', 'quint', 'sext', 'setim', 'oitav', 'non'];
const ORDINAL_TENS = [
  'decim',
  'vigesim',
  'trigesim',
  'quadragesim',
  'quinquagesim',
  'sexagesim',
  'septuagesim',
  'octogesim',
  'nonagesim',
];
const EUROPEAN: Readonly<Record<number, readonly string[]>> = {
  14: ['quatorze'],
  16: ['dezasseis'],
  17: ['dezassete'],
  19: ['dezanove'],
};

function cardinals(value: number): readonly string[] {
  if (value < 20) return [SMALL[value - 1] ?? '', ...(EUROPEAN[value] ?? [])];
  if (value >= 100) return value === 100 ? ['cem'] : cardinals(value - 100).map((form) => `centoe${form}`);
  const tens = TENS[Math.floor(value / 10) - 2] ?? '';
  return [value % 10 === 0 ? tens : `${tens}e${SMALL[(value % 10) - 1]}`];
}

function ordinals(value: number): readonly string[] {
  if (value >= 100) return [];
  const unit = UNITS[(value % 10) - 1] ?? '';
  const numeric = [`${value}o`, `${value}a`];
  if (value < 10) return [`${unit}o`, `${unit}a`, ...numeric];
  const tens = ORDINAL_TENS[Math.floor(value / 10) - 1] ?? '';
  if (value % 10 === 0) return [`${tens}o`, `${tens}a`, ...numeric];
  return [`${tens}o${unit}o`, `${tens}a${unit}a`, ...numeric];
}

export const portuguese: Words = {
  language: 'pt',
  labels: {
    capitulo: 'chapter',
    cap: 'chapter',
    carta: 'chapter',
    canto: 'chapter',
    cena: 'chapter',
    episodio: 'chapter',
    parte: 'part',
    livro: 'part',
    tomo: 'part',
    volume: 'part',
    ato: 'part',
    interludio: 'interlude',
    apendice: 'appendix',
  },
  short: { cap: 'Cap\u00edtulo' },
  matter: {
    copyright: ['copyright', 'ficha tecnica', 'direitos autorais'],
    dedication: ['dedicatoria'],
    epigraph: ['epigrafe'],
    contents: ['indice', 'sumario', 'conteudo'],
    foreword: ['apresentacao'],
    preface: ['prefacio'],
    acknowledgments: ['agradecimentos', 'agradecimento'],
    introduction: ['introducao'],
    prologue: ['prologo', 'preludio'],
    interlude: ['interludio', 'intermezzo'],
    epilogue: ['epilogo'],
    afterword: ['posfacio'],
    appendix: ['apendice', 'apendices', 'anexo'],
    notes: ['notas'],
    glossary: ['glossario'],
    bibliography: ['bibliografia', 'referencias'],
    index: ['indice remissivo'],
    aboutAuthor: ['sobre o autor', 'sobre a autora', 'o autor', 'a autora'],
    alsoBy: ['do mesmo autor', 'da mesma autora', 'outros livros'],
    excerpt: ['excerto', 'trecho'],
    note: ['nota do autor', 'nota da autora', 'nota do tradutor', 'ao leitor', 'nota', 'advertencia'],
    other: ['personagens', 'cronologia'],
  },
  begins: { alsoBy: ['outros livros de', 'do mesmo autor'] },
  articles: ['o', 'a', 'no', 'numero'],
  by: ['por', 'de'],
  genres: ['romance', 'um romance', 'contos', 'novela'],
  translators: ['traducao de', 'traduzido por'],
  ends: ['fim', 'o fim', 'finis'],
  dedications: ['a ', 'ao ', 'para ', 'aos meus', 'em memoria de'],
  rights: ['copyright', 'todos os direitos', 'isbn', '\u00a9', 'primeira edicao', 'impresso em'],
  numbers: () => numberWords(cardinals, ordinals),
  stops: [
    'o',
    'que',
    'e',
    'de',
    'a',
    'nao',
    'um',
    'uma',
    'os',
    'com',
    'do',
    'da',
    'em',
    'se',
    'para',
    'era',
    'ele',
    'ela',
    'no',
  ],
};
