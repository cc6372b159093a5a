import { describe, expect, it } from 'vitest';
import { leadInLength } from '#design';

const REST = ' and so it went on for the whole of that long, grey, windless afternoon.';

function leadIn(opening: string): string {
  const text = opening + REST;
  return text.slice(0, leadInLength(text));
}

describe('the lead-in of a chapter (FACTS T-23)', () => {
  it.each([
    ['Sixty-two years later, on the second of March', 'Sixty-two years later,'],
    ['\u201CHold on to the hen,\u201D said Wilfred', '\u201CHold on to the hen,\u201D'],
    ['The boy had been sent for lamp oil', 'The boy had been'],
    ['Mrs. Dunnock of the Wade\u2019s Rest kept four bedrooms', 'Mrs. Dunnock of the Wade\u2019s'],
    ['It was a dark and windy night', 'It was a dark'],
    ['Not then. Not ever after that', 'Not then. Not ever'],
  ])('of %j is %j', (opening, expected) => {
    expect(leadIn(opening)).toBe(expected);
  });

  it('is left out where the paragraph is short or begins with no letter', () => {
    expect(leadInLength('It rained.')).toBe(0);
    expect(leadIn('1911 was the year of the bar')).toBe('');
  });

  it('ends before a note or a line break', () => {
    expect(leadIn('The boy had\uFFFC been sent out')).toBe('The boy');
  });
});
