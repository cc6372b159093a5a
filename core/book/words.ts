/**
 * The few words that a book gets from us, by language. In: a BCP 47 tag; out: section names, joining words, the lines of
 * a new copyright page.
 */
import type { SectionKind } from './kinds.ts';

type Spoken = 'en' | 'fr' | 'de' | 'es';

const NAMES: Readonly<Record<Spoken, Readonly<Record<SectionKind, string>>>> = {
  en: {
    halfTitle: 'Half Title',
    alsoBy: 'Also by the Author',
    frontispiece: 'Frontispiece',
    titlePage: 'Title Page',
    copyright: 'Copyright',
    dedication: 'Dedication',
    epigraph: 'Epigraph',
    contents: 'Contents',
    foreword: 'Foreword',
    preface: 'Preface',
    acknowledgments: 'Acknowledgments',
    introduction: 'Introduction',
    prologue: 'Prologue',
    part: 'Part',
    chapter: 'Chapter',
    interlude: 'Interlude',
    epilogue: 'Epilogue',
    afterword: 'Afterword',
    appendix: 'Appendix',
    notes: 'Notes',
    glossary: 'Glossary',
    bibliography: 'Bibliography',
    index: 'Index',
    discussion: 'Questions for Discussion',
    aboutAuthor: 'About the Author',
    excerpt: 'Excerpt',
    colophon: 'Colophon',
    note: 'Note',
    other: 'Section',
  },
  fr: {
    halfTitle: 'Faux-titre',
    alsoBy: 'Du même auteur',
    frontispiece: 'Frontispice',
    titlePage: 'Page de titre',
    copyright: 'Copyright',
    dedication: 'Dédicace',
    epigraph: 'Épigraphe',
    contents: 'Table des matières',
    foreword: 'Avant-propos',
    preface: 'Préface',
    acknowledgments: 'Remerciements',
    introduction: 'Introduction',
    prologue: 'Prologue',
    part: 'Partie',
    chapter: 'Chapitre',
    interlude: 'Interlude',
    epilogue: 'Épilogue',
    afterword: 'Postface',
    appendix: 'Annexe',
    notes: 'Notes',
    glossary: 'Glossaire',
    bibliography: 'Bibliographie',
    index: 'Index',
    discussion: 'Questions pour la discussion',
    aboutAuthor: 'À propos de l’auteur',
    excerpt: 'Extrait',
    colophon: 'Colophon',
    note: 'Note',
    other: 'Section',
  },
  de: {
    halfTitle: 'Schmutztitel',
    alsoBy: 'Weitere Bücher',
    frontispiece: 'Frontispiz',
    titlePage: 'Titelseite',
    copyright: 'Impressum',
    dedication: 'Widmung',
    epigraph: 'Motto',
    contents: 'Inhalt',
    foreword: 'Geleitwort',
    preface: 'Vorwort',
    acknowledgments: 'Danksagung',
    introduction: 'Einleitung',
    prologue: 'Prolog',
    part: 'Teil',
    chapter: 'Kapitel',
    interlude: 'Zwischenspiel',
    epilogue: 'Epilog',
    afterword: 'Nachwort',
    appendix: 'Anhang',
    notes: 'Anmerkungen',
    glossary: 'Glossar',
    bibliography: 'Literatur',
    index: 'Register',
    discussion: 'Fragen zum Gespräch',
    aboutAuthor: 'Zur Person',
    excerpt: 'Leseprobe',
    colophon: 'Kolophon',
    note: 'Anmerkung',
    other: 'Abschnitt',
  },
  es: {
    halfTitle: 'Portadilla',
    alsoBy: 'Otros libros',
    frontispiece: 'Frontispicio',
    titlePage: 'Portada',
    copyright: 'Créditos',
    dedication: 'Dedicatoria',
    epigraph: 'Epígrafe',
    contents: 'Índice',
    foreword: 'Prólogo',
    preface: 'Prefacio',
    acknowledgments: 'Agradecimientos',
    introduction: 'Introducción',
    prologue: 'Prólogo',
    part: 'Parte',
    chapter: 'Capítulo',
    interlude: 'Interludio',
    epilogue: 'Epílogo',
    afterword: 'Posfacio',
    appendix: 'Apéndice',
    notes: 'Notas',
    glossary: 'Glosario',
    bibliography: 'Bibliografía',
    index: 'Índice alfabético',
    discussion: 'Preguntas para el debate',
    aboutAuthor: 'Sobre el autor',
    excerpt: 'Fragmento',
    colophon: 'Colofón',
    note: 'Nota',
    other: 'Sección',
  },
};

/** The words of a new copyright page and of names in a row. */
export interface BookWords {
  readonly and: string;
  readonly rightsReserved: string;
  readonly paperback: string;
  readonly ebook: string;
}

const WORDS: Readonly<Record<Spoken, BookWords>> = {
  en: { and: 'and', rightsReserved: 'All rights reserved.', paperback: 'Paperback', ebook: 'Ebook' },
  fr: { and: 'et', rightsReserved: 'Tous droits réservés.', paperback: 'Broché', ebook: 'Livre numérique' },
  de: { and: 'und', rightsReserved: 'Alle Rechte vorbehalten.', paperback: 'Taschenbuch', ebook: 'E-Book' },
  es: {
    and: 'y',
    rightsReserved: 'Todos los derechos reservados.',
    paperback: 'Tapa blanda',
    ebook: 'Libro electrónico',
  },
};

/** The name of a kind of section in the book's language; English where we have no words for the language. */
export function sectionName(kind: SectionKind, language: string): string {
  return NAMES[spoken(language)][kind];
}

/** Our words in the book's language; English where we have none. */
export function wordsFor(language: string): BookWords {
  return WORDS[spoken(language)];
}

/** Names in a row: "A", "A and B", "A, B and C". */
export function namesInARow(names: readonly string[], language: string): string {
  if (names.length < 2) return names[0] ?? '';
  return `${names.slice(0, -1).join(', ')} ${wordsFor(language).and} ${names[names.length - 1]}`;
}

/** The primary language of a BCP 47 tag, in lower case: `de` of `de-CH`. */
export function primaryLanguage(tag: string): string {
  const end = tag.search(/[-_]/);
  return (end < 0 ? tag : tag.slice(0, end)).toLowerCase();
}

function spoken(language: string): Spoken {
  const primary = primaryLanguage(language);
  return primary === 'fr' || primary === 'de' || primary === 'es' ? primary : 'en';
}
