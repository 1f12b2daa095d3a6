/** Rows of a table for `it.each` and '%s': the name in full, then the row. */
export const named = <T extends { name: string }>(rows: readonly T[]): [string, T][] =>
  rows.map((row) => [row.name, row]);
