import { expect } from 'vitest';

/** Reads what RFC 4180 describes: the reverse of writing it, written apart. */
export function parse(csv: string): string[][] {
  const rows: string[][] = [[]];
  let value = '';
  let quoted = false;
  for (let i = 0; i < csv.length; i++) {
    const c = csv[i] as string;
    if (quoted && c === '"' && csv[i + 1] === '"') value += csv[i++];
    else if (c === '"') quoted = !quoted;
    else if (!quoted && c === ',') value = push(rows, value);
    else if (!quoted && c === '\r' && csv[i + 1] === '\n') {
      value = push(rows, value);
      rows.push([]);
      i++;
    } else value += c;
  }
  expect(quoted).toBe(false);
  expect(rows.pop()).toEqual([]);
  return rows;
}

function push(rows: string[][], value: string): string {
  (rows.at(-1) as string[]).push(value);
  return '';
}
