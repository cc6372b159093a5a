/** The words that an ebook says by itself, beside those of the book room. In: a BCP 47 tag; out: words. */

export interface EbookWords {
  /** The language that these words are in: the book's, or `en` where we have none for it. */
  readonly language: string;
  readonly cover: string;
  /** The cover's text alternative; `author` '' where none is named. */
  readonly coverOf: (title: string, author: string) => string;
  readonly pages: string;
  readonly landmarks: string;
  readonly beginning: string;
  /** The name of the link from a note to its place in the text. */
  readonly backTo: (number: number) => string;
  readonly printEdition: (title: string) => string;
  readonly summary: {
    readonly base: string;
    readonly described: string;
    readonly undescribed: string;
    readonly pages: string;
  };
}

const ENGLISH: EbookWords = {
  language: 'en',
  cover: 'Cover',
  coverOf: (title, author) => `Cover of ${title}${author === '' ? '' : ` by ${author}`}`,
  pages: 'Pages of the print edition',
  landmarks: 'Landmarks',
  beginning: 'Start of the text',
  backTo: (number) => `Back to reference ${number}`,
  printEdition: (title) => `Print edition of ${title}`,
  summary: {
    base: 'Reflowable text with headings, a linked table of contents and notes linked in both directions; size, typeface and colours follow the reader’s settings.',
    described: 'All informative pictures have text alternatives.',
    undescribed: 'Some pictures have no text alternative.',
    pages: 'The page numbers of the print edition are included.',
  },
};

const FRENCH: EbookWords = {
  language: 'fr',
  cover: 'Couverture',
  coverOf: (title, author) => `Couverture : ${title}${author === '' ? '' : `, de ${author}`}`,
  pages: 'Pages de l’édition imprimée',
  landmarks: 'Repères',
  beginning: 'Début du texte',
  backTo: (number) => `Retour à l’appel de note ${number}`,
  printEdition: (title) => `Édition imprimée de ${title}`,
  summary: {
    base: 'Texte redimensionnable, titres structurés, table des matières et notes avec liens dans les deux sens ; taille, caractère et couleurs suivent les réglages de lecture.',
    described: 'Toutes les images informatives ont une description.',
    undescribed: 'Certaines images n’ont pas de description.',
    pages: 'Les numéros de page de l’édition imprimée sont indiqués.',
  },
};

const GERMAN: EbookWords = {
  language: 'de',
  cover: 'Umschlag',
  coverOf: (title, author) => `Umschlag: ${title}${author === '' ? '' : ` von ${author}`}`,
  pages: 'Seiten der Druckausgabe',
  landmarks: 'Orientierungspunkte',
  beginning: 'Beginn des Textes',
  backTo: (number) => `Zurück zur Textstelle ${number}`,
  printEdition: (title) => `Druckausgabe von ${title}`,
  summary: {
    base: 'Fließender Text mit Überschriften, verlinktem Inhaltsverzeichnis und in beide Richtungen verlinkten Anmerkungen; Größe, Schrift und Farben richten sich nach den Einstellungen beim Lesen.',
    described: 'Alle inhaltlichen Bilder haben eine Textalternative.',
    undescribed: 'Einige Bilder haben keine Textalternative.',
    pages: 'Die Seitenzahlen der Druckausgabe sind enthalten.',
  },
};

const SPANISH: EbookWords = {
  language: 'es',
  cover: 'Cubierta',
  coverOf: (title, author) => `Cubierta: ${title}${author === '' ? '' : `, de ${author}`}`,
  pages: 'Páginas de la edición impresa',
  landmarks: 'Puntos de referencia',
  beginning: 'Comienzo del texto',
  backTo: (number) => `Volver a la llamada ${number}`,
  printEdition: (title) => `Edición impresa de ${title}`,
  summary: {
    base: 'Texto adaptable con títulos, índice enlazado y notas enlazadas en ambos sentidos; el tamaño, la letra y los colores siguen los ajustes de lectura.',
    described: 'Todas las imágenes informativas tienen texto alternativo.',
    undescribed: 'Algunas imágenes no tienen texto alternativo.',
    pages: 'Se incluyen los números de página de la edición impresa.',
  },
};

/** Our words in the book's language; English where we have none. */
export function ebookWords(language: string): EbookWords {
  switch (language.split('-')[0]?.toLowerCase()) {
    case 'fr':
      return FRENCH;
    case 'de':
      return GERMAN;
    case 'es':
      return SPANISH;
    default:
      return ENGLISH;
  }
}
