/**
 * How an author types: clean text comes in, the same words go out with the habits that word processors and typewriters
 * leave behind. Only marks and spaces change here, never a letter.
 */

/**
 * The same paragraph as `manner` has it typed. Text is passed as the texts of its spans, so that a quotation mark sees
 * its neighbours across the border of an emphasis.
 * @param {readonly string[]} texts
 * @param {Record<string, string>} manner `quotes`: straight, curly or mixed; `spaces`: two after a sentence
 * @param {number} index the paragraph's number in its section
 * @returns {string[]}
 */
export function typed(texts, manner, index) {
  const curly = manner['quotes'] === 'curly' || (manner['quotes'] === 'mixed' && index % 2 === 1);
  const quoted = curly ? curl(texts) : [...texts];
  return manner['spaces'] === 'two' ? quoted.map(doubleSpaces) : quoted;
}

/** Two spaces after a sentence, as typing was once taught; the author forgets one time in four. @param {string} text */
function doubleSpaces(text) {
  let sentence = 0;
  return text.replace(/([.?!]["'\u2019\u201d]?) (?=["'\u2018\u201c]?\p{Lu})/gu, (_, end) => {
    sentence += 1;
    return sentence % 4 === 0 ? `${end} ` : `${end}  `;
  });
}

/** Curly quotation marks and apostrophes, by what stands on either side. @param {readonly string[]} texts */
function curl(texts) {
  const whole = texts.join('\u0000');
  const before = (/** @type {number} */ at) => (whole[at - 1] === '\u0000' ? whole[at - 2] : whole[at - 1]);
  const after = (/** @type {number} */ at) => (whole[at + 1] === '\u0000' ? whole[at + 2] : whole[at + 1]);
  let out = '';
  for (let at = 0; at < whole.length; at += 1) {
    const mark = whole[at] ?? '';
    if (mark === '"') out += opens(before(at), after(at)) ? '\u201c' : '\u201d';
    else if (mark === "'") out += opens(before(at), after(at)) ? '\u2018' : '\u2019';
    else out += mark;
  }
  return out.split('\u0000');
}

/** @param {string | undefined} before @param {string | undefined} after */
function opens(before, after) {
  if (before === undefined || /[\s([]/.test(before)) return true;
  return /["'\u2014-]/.test(before) && after !== undefined && /[\p{L}\p{N}]/u.test(after);
}
