/** French heading words and numbers. */
import { numberWords } from './numberWords.ts';
import type { Words } from './words.ts';

const SMALL =
  'un deux trois quatre cinq six sept huit neuf dix onze douze treize quatorze quinze seize dixsept dixhuit dixneuf'.split(
    ' ',
  );
const TENS = ['vingt', 'trente', 'quarante', 'cinquante', 'soixante'];

function belowHundred(value: number): string {
  if (value < 20) return SMALL[value - 1] ?? '';
  if (value >= 80) return value === 80 ? 'quatrevingt' : `quatrevingt${SMALL[value - 81] ?? ''}`;
  const tens = TENS[Math.min(Math.floor(value / 10), 6) - 2] ?? '';
  const rest = value - Math.min(Math.floor(value / 10), 6) * 10;
  if (rest === 0) return tens;
  return rest === 1 || rest === 11 ? `${tens}et${SMALL[rest - 1]}` : tens + SMALL[rest - 1];
}

function cardinals(value: number): readonly string[] {
  if (value === 1) return ['un', 'une'];
  if (value === 80) return ['quatrevingt', 'quatrevingts'];
  if (value < 100) return [belowHundred(value)];
  return [value === 100 ? 'cent' : `cent${belowHundred(value - 100)}`];
}

function ordinals(value: number): readonly string[] {
  if (value === 1) return ['premier', 'premiere', '1er', '1ere', '1re'];
  const cardinal = value < 100 ? belowHundred(value) : (cardinals(value)[0] ?? '');
  const stem = cardinal.endsWith('e') ? cardinal.slice(0, -1) : cardinal;
  const regular = stem.endsWith('cinq')
    ? `${stem}uieme`
    : stem.endsWith('neuf')
      ? `${stem.slice(0, -1)}vieme`
      : `${stem}ieme`;
  const numeric = [`${value}e`, `${value}eme`, `${value}ieme`];
  return value === 2 ? [regular, 'second', 'seconde', ...numeric] : [regular, ...numeric];
}

export const french: Words = {
  language: 'fr',
  labels: {
    chapitre: 'chapter',
    chap: 'chapter',
    lettre: 'chapter',
    chant: 'chapter',
    scene: 'chapter',
    episode: 'chapter',
    partie: 'part',
    livre: 'part',
    tome: 'part',
    volume: 'part',
    acte: 'part',
    intermede: 'interlude',
    interlude: 'interlude',
    annexe: 'appendix',
    appendice: 'appendix',
  },
  short: { chap: 'Chapitre' },
  matter: {
    halfTitle: ['faux titre', 'faux-titre'],
    titlePage: ['page de titre'],
    copyright: ['mentions legales', 'droits d auteur', 'copyright', 'achevé d imprimer'],
    dedication: ['dedicace', 'dedicaces'],
    epigraph: ['epigraphe', 'exergue'],
    contents: ['table des matieres', 'table', 'sommaire', 'table des chapitres'],
    foreword: ['avant-propos', 'avant propos'],
    preface: ['preface', 'preface de l auteur', "preface de l'auteur"],
    acknowledgments: ['remerciements', 'remerciement'],
    introduction: ['introduction'],
    prologue: ['prologue', 'prelude'],
    interlude: ['interlude', 'intermede', 'entracte'],
    epilogue: ['epilogue'],
    afterword: ['postface', 'post-scriptum', 'postscriptum'],
    appendix: ['annexe', 'annexes', 'appendice', 'appendices'],
    notes: ['notes', 'notes de fin'],
    glossary: ['glossaire', 'lexique'],
    bibliography: ['bibliographie', 'sources', 'references'],
    index: ['index'],
    discussion: ['questions pour les lecteurs', 'guide de lecture'],
    aboutAuthor: [
      "a propos de l'auteur",
      "a propos de l'autrice",
      "l'auteur",
      "l'autrice",
      "l'auteure",
      "biographie de l'auteur",
    ],
    alsoBy: [
      'du meme auteur',
      'de la meme autrice',
      'de la meme auteure',
      'du meme auteur chez le meme editeur',
      'dans la meme collection',
    ],
    excerpt: ['extrait'],
    colophon: ['colophon', "acheve d'imprimer"],
    note: [
      "note de l'auteur",
      "note de l'autrice",
      'note du traducteur',
      "note de l'editeur",
      'avertissement',
      'au lecteur',
      'note',
    ],
    other: ['personnages', 'liste des personnages', 'table des illustrations', 'chronologie'],
  },
  begins: {
    alsoBy: ['du meme auteur', 'de la meme autrice'],
    aboutAuthor: ["a propos de l'aut"],
    excerpt: ['extrait de '],
  },
  articles: ['le', 'la', 'no', 'n°', 'numero'],
  by: ['par', 'de'],
  genres: ['roman', 'un roman', 'recit', 'nouvelles', 'conte', 'contes', 'roman policier', 'thriller'],
  translators: ['traduit par', 'traduction de', 'traduit de', 'traduction'],
  ends: ['fin', 'la fin', 'finis'],
  dedications: ['a ', 'a mon ', 'a ma ', 'a mes ', 'pour ', 'en memoire de', 'a la memoire de'],
  rights: ['copyright', 'tous droits', 'isbn', 'depot legal', '\u00a9', 'edition', 'imprime en'],
  numbers: () => numberWords(cardinals, ordinals),
  stops: [
    'le',
    'la',
    'les',
    'de',
    'des',
    'et',
    'un',
    'une',
    'dans',
    'que',
    'qui',
    'il',
    'elle',
    'pas',
    'vous',
    'je',
    'en',
    'du',
    'est',
  ],
};
