import { expect, test } from 'vitest';
import type { KitSheet, Pair } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { sheetCsv } from '../../../src/sheet/print/csv';
import { TAKEN } from '../../support/readings/taken';

/** Reads what RFC 4180 describes: the reverse of writing it, written apart. */
function parse(csv: string): string[][] {
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

const four = sheetFrom(STARTS[2] as (typeof STARTS)[number], 'kit', 'Quay');
const [one] = four.pairs as [Pair];
const sheet: KitSheet = {
  ...four,
  sampleRate: 96000,
  microphones: four.microphones.map((microphone) => ({
    ...microphone,
    label: `=SUM(1)"${microphone.label}", new\nline`,
  })),
  pairs: [
    {
      ...one,
      drum: '-1+1',
      acceptedAt: '2026-01-02T03:10:00Z',
      before: { ...TAKEN, polarity: 'same', delayMs: 0.01234 },
      checked: { checkedAt: '2026-01-02T09:00:00Z', change: 'moved', fartherCm: 2.44 },
      after: {
        ...TAKEN,
        initials: 'lv',
        sampleRate: 44100,
        delayMs: -0.07,
        uncertaintyMs: 0.023456,
        fullerDb: 7.84,
        fullerLowHz: 176.8,
        fullerHighHz: 353.6,
      },
      done: { inverted: 'b', movedCm: 2.5, later: null, leftOnPurpose: false, note: 'before "take" 2' },
    },
    ...four.pairs.slice(1),
  ],
};

test('a row for each pair, each as long as the head; what was written is read again', () => {
  const csv = sheetCsv(sheet);
  expect(csv.charCodeAt(0)).toBe(0xfeff);
  const [head, first, ...rest] = parse(csv.slice(1)) as [string[], string[]];
  expect(rest).toHaveLength(sheet.pairs.length - 1);
  for (const row of [first, ...rest]) expect(row).toHaveLength(head.length);
  const told = Object.fromEntries(head.map((name, i) => [name, first[i]]));
  expect(told).toMatchObject({
    A: `'${sheet.microphones.find(({ id }) => id === one.a)?.label}`,
    sure: 'yes',
    polarity: 'inverted',
    'delay of B ms': '-0.07',
    // by hand: −0.07 ms at the recording's 96 kHz, not at the meter's rate
    'delay of B samples': '-6.7',
    'uncertainty ms (90 %)': '0.0235',
    'the drum’s low octave Hz': '177–354',
    'inverted then': 'B',
    'B moved towards the drum cm': '2.5',
    'left on purpose': 'no',
    note: 'before "take" 2',
    initials: 'lv',
    'temperature °C': '20',
    agreement: '0.9',
    'polarity before': 'same',
    'delay of B before ms': '0.0123',
    'looked at again': '2026-01-02T09:00:00Z',
    'what was found': 'moved',
    'B farther by then cm': '2.4',
  });
});

test('what a spreadsheet would run is text', () => {
  const rows = parse(sheetCsv(sheet).slice(1));
  expect(rows[1]?.[0]).toBe("'-1+1");
  for (const row of rows) for (const value of row) expect(value).not.toMatch(/^[=@+]/);
});
