/**
 * Characters of the pictorial fonts (w:sym, and private-use characters in text), as Unicode. In: font name and code;
 * out: a character, or null if none is known. Sources: Unicode's mapping tables for the Adobe Symbol encoding and the
 * proposal that encoded the Wingdings sets (L2/12-368); the tables below are written from memory of both.
 */

/** Codes 0x21 to 0x7E, then 0xA0 to 0xFE, of the Symbol encoding; a space where nothing stands. */
const SYMBOL_LOW = '!∀#∃%&∋()∗+,−./0123456789:;<=>?≅ΑΒΧΔΕΦΓΗΙϑΚΛΜΝΟΠΘΡΣΤΥςΩΞΨΖ[∴]⊥_‾αβχδεφγηιϕκλμνοπθρστυϖωξψζ{|}∼';
const SYMBOL_HIGH = '€ϒ′≤⁄∞ƒ♣♦♥♠↔←↑→↓°±″≥×∝∂•÷≠≡≈…⏐⎯↵ℵℑℜ℘⊗⊕∅∩∪⊃⊇⊄⊂⊆∈∉∠∇®©™∏√⋅¬∧∨⇔⇐⇑⇒⇓◊〈®©™∑⎛⎜⎝⎡⎢⎣⎧⎨⎩⎪ 〉∫⌠⎮⌡⎞⎟⎠⎤⎥⎦⎫⎬⎭';

const WINGDINGS: Readonly<Record<number, string>> = {
  33: '✏',
  34: '✂',
  35: '✁',
  40: '☎',
  42: '✉',
  54: '⌛',
  62: '✇',
  63: '✍',
  65: '✌',
  69: '☜',
  70: '☞',
  71: '☝',
  72: '☟',
  74: '☺',
  76: '☹',
  78: '☠',
  81: '✈',
  82: '☼',
  84: '❄',
  86: '✞',
  88: '✠',
  89: '✡',
  90: '☪',
  91: '☯',
  92: 'ॐ',
  93: '☸',
  94: '♈',
  95: '♉',
  96: '♊',
  97: '♋',
  98: '♌',
  99: '♍',
  100: '♎',
  101: '♏',
  102: '♐',
  103: '♑',
  104: '♒',
  105: '♓',
  108: '●',
  109: '❍',
  110: '■',
  111: '□',
  113: '❑',
  114: '❒',
  115: '⬧',
  116: '⧫',
  117: '◆',
  118: '❖',
  119: '⬥',
  120: '⌧',
  122: '⌘',
  123: '❀',
  124: '✿',
  125: '❝',
  126: '❞',
  128: '⓪',
  139: '⓿',
  158: '·',
  159: '•',
  167: '▪',
  168: '◻',
  170: '✦',
  171: '★',
  172: '✶',
  173: '✴',
  174: '✹',
  175: '✵',
  216: '➢',
  223: '←',
  224: '→',
  225: '↑',
  226: '↓',
  232: '➔',
  239: '⇦',
  240: '⇨',
  241: '⇧',
  242: '⇩',
  251: '✗',
  252: '✓',
  253: '☒',
  254: '☑',
};

/** `code` may carry the 0xF000 that marks private use. */
export function symbolCharacter(font: string, code: number): string | null {
  const inFont = code >= 0xf000 && code <= 0xf0ff ? code - 0xf000 : code;
  if (inFont === 0x20) return ' ';
  switch (font.toLowerCase()) {
    case 'symbol':
      return symbolEncoding(inFont);
    case 'wingdings':
      return wingdings(inFont);
    default:
      return code >= 0xe000 && code <= 0xf8ff ? null : code > 0x20 && code <= 0xffff ? String.fromCharCode(code) : null;
  }
}

function symbolEncoding(code: number): string | null {
  const character = code >= 0xa0 ? SYMBOL_HIGH[code - 0xa0] : SYMBOL_LOW[code - 0x21];
  return character === undefined || character === ' ' ? null : character;
}

function wingdings(code: number): string | null {
  if (code >= 0x81 && code <= 0x8a) return String.fromCharCode(0x2460 + code - 0x81);
  if (code >= 0x8c && code <= 0x95) return String.fromCharCode(0x2776 + code - 0x8c);
  return WINGDINGS[code] ?? null;
}
