/**
 * Rules: OWASP, "CSV Injection" (owasp.org/www-community/attacks/CSV_Injection): no cell begins with = + - @, tab, carriage return
 * or line feed; mind separators and quotes, which begin a cell within a text; an apostrophe first, quotes doubled.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { sheetCsv } from '../../../src/sheet/print/csv';
import { notRun, quoted } from '../../../src/sheet/print/spreadsheetText';
import { parse } from '../../support/readings/csvRows';
import { planned, TAKEN, timing } from '../../support/readings/taken';

const SIGNS = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];

/** Every cell that a program could cut the text into, by any separator it may use, written apart from the code. */
function cellsOf(text: string): string[] {
  return text.split(/[,;|\t\r\n\v\f\u0085\u2028\u2029"`]/u).map((cell) => cell.replace(/^[\s\p{Cc}\p{Cf}]+/u, ''));
}

describe('text that a spreadsheet could run', () => {
  test.each(SIGNS)('%s at the beginning gets an apostrophe', (sign) => {
    expect(notRun(`${sign}1+2`)).toBe(`'${sign}1+2`);
    expect(notRun(`  ${sign}1`)).toBe(`'  ${sign}1`);
    expect(notRun(`\u00a0\u200b${sign}1`)).toBe(`'\u00a0\u200b${sign}1`);
  });

  test.each(['\t', '\r', '\n'])('%j at the beginning', (sign) => expect(notRun(`${sign}cmd`)).toBe(`'${sign}cmd`));

  test('the two examples of the rules', () => {
    expect(quoted(notRun('=1+2";=1+2'))).toBe(`"'=1+2"";'=1+2"`);
    expect(quoted(notRun(`=1+2'" ;,=1+2`))).toBe(`"'=1+2'"" ;,'=1+2"`);
  });

  test.each([
    ['a\n=1', "a\n'=1"],
    ['a\r\n @SUM(1)', "a\r\n '@SUM(1)"],
    ['a; ＝1', "a; '＝1"],
    ['a,-2+3+cmd|x', "a,'-2+3+cmd|x"],
    ['a|=b', "a|'=b"],
    ['say "=1"', `say "'=1"`],
    ["it's '=1'", "it's ''=1'"],
  ])('%j within the text: after a separator, a line’s end or a quote', (text, safe) => expect(notRun(text)).toBe(safe));

  test.each(['Snare top', 'in-line', 'a - b', '3 dB + pad', 'Tom 2 (2)', 'mail@home', 'x=1', '', "drummer's left"])(
    '%j is left as it is',
    (text) => expect(notRun(text)).toBe(text),
  );

  test('thousands of spaces and quotes before a letter take no time to speak of', () => {
    const long = `${' '.repeat(2000)}${'"'.repeat(2000)}x`;
    expect(notRun(long)).toBe(long);
    expect(notRun(`${long.slice(0, -1)}=1`).startsWith("'")).toBe(true);
  });

  test('whatever a person writes, no cell of it begins with a sign, and nothing else is changed', () => {
    const character = fc.constantFrom(...SIGNS, ' ', '\t', '\n', '\r', ',', ';', '|', '"', "'", 'a', '1', '\u200b');
    fc.assert(
      fc.property(fc.string({ unit: character, maxLength: 14 }), (text) => {
        const safe = notRun(text);
        for (const cell of cellsOf(safe)) expect(SIGNS).not.toContain(cell[0]);
        expect(safe).not.toMatch(/^[\t\r\n]/);
        expect(safe.replaceAll("'", '')).toBe(text.replaceAll("'", ''));
        expect(parse(`${quoted(safe)}\r\n`)).toEqual([[safe]]);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('the whole table', () => {
  const HOSTILE = ' ＝cmd|x\n@SUM(1);+1,-2"=3';
  const four = sheetFrom(STARTS[2] as (typeof STARTS)[number], 'kit', 'Quay');
  const before = {
    ...TAKEN,
    delayMs: -0.07,
    initials: HOSTILE,
    ...planned(timing(0.1, 0.1), timing(0.9, 0.9, { delayMs: -3 })),
  };
  const done = { inverted: null, movedCm: -2.5, later: null, leftOnPurpose: false, note: HOSTILE };
  const sheet = {
    ...four,
    microphones: four.microphones.map((one) => ({ ...one, label: `${HOSTILE}${one.id}`, input: HOSTILE })),
    pairs: four.pairs.map((one) => ({ ...one, drum: HOSTILE, acceptedAt: '2026-01-02T03:10:00Z', before, done })),
  };

  test('hostile names, drums, inputs, initials and notes run nowhere', () => {
    const [head, ...rows] = parse(sheetCsv(sheet).slice(1)) as [string[], ...string[][]];
    for (const row of rows)
      for (const [i, cell] of row.entries())
        if (!/^-?\d+(\.\d+)?$/.test(cell)) {
          // our own words tell gains with a sign after a comma: nothing of them can be run
          const own = head[i]?.startsWith('the plan in words') ?? false;
          for (const part of cellsOf(cell))
            if (!(own && /^\+\d+(\.\d)? dB overall$/.test(part))) expect(SIGNS, cell).not.toContain(part[0]);
        }
  });

  test('negative numbers stay numbers', () => {
    const [head, row] = parse(sheetCsv(sheet).slice(1)) as [string[], string[]];
    const told = Object.fromEntries(head.map((name, i) => [name, row[i]]));
    expect(told).toMatchObject({
      'delay of B ms': '-0.07',
      'B moved closer cm': '-2.5',
      'in the mix: delay ms (positive: delay A, negative: delay B)': '-3',
    });
  });
});
