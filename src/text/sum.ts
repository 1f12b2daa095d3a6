/** How a number on the screen comes about: its formula, what goes in, what comes out, and where the formula is from. */
export interface SumInput {
  /** as the formula has it */
  symbol: string;
  /** what it is */
  is: string;
  /** with its unit */
  value: string;
}

export interface Sum {
  /** of the number, on its page */
  id: string;
  /** as the screen calls it */
  name: string;
  formula: string;
  inputs: readonly SumInput[];
  /** the formula with its numbers, a line each; null: there is no such number now */
  worked: string | null;
  /** what comes out, in the unit of `worked`; null as above */
  result: number | null;
  /** how it is shown, or what else is in it; null: nothing */
  note: string | null;
  source: string;
}

/** A sentence in which the names of its numbers are told, with the ids of their sums; in the order of the text. */
export interface SumLine {
  text: string;
  sums: readonly { name: string; id: string }[];
}

export const plainLine = (text: string): SumLine => ({ text, sums: [] });
