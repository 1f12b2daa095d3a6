/** About how wide a text is, rather too wide: pure code can't measure it. Widths in em of a wide sans serif, bold. */

const NARROW = /[iljtfrI1.,:;'’|!() ]/;
const WIDE = /[mwMW@%…→]/;
const CAPITAL = /\p{Lu}/u;
const EM = { narrow: 0.42, wide: 1.04, capital: 0.78, other: 0.68 };

/** @param size of the letters, in the drawing's units */
export function textWidth(text: string, size: number): number {
  let em = 0;
  for (const letter of text)
    em += NARROW.test(letter) ? EM.narrow : WIDE.test(letter) ? EM.wide : CAPITAL.test(letter) ? EM.capital : EM.other;
  return em * size;
}

/** The text, cut with "…" where it is longer than so many letters. */
export const shortText = (text: string, letters: number): string =>
  text.length > letters ? `${text.slice(0, letters - 1).trimEnd()}…` : text;
