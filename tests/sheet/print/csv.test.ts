import { expect, test } from 'vitest';
import type { KitSheet, Pair } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { sheetCsv } from '../../../src/sheet/print/csv';
import { handOver } from '../../../src/sheet/print/handOver';
import { parse } from '../../support/readings/csvRows';
import { DONE } from '../../support/readings/sheets';
import { planned, TAKEN, timing } from '../../support/readings/taken';

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
        ...planned(timing(0.7, 0.5)),
        source: 'example: Snare, top & bottom',
        hits: 22,
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
    certain: 'yes',
    polarity: 'inverted',
    'delay of B ms': '-0.07',
    // by hand: −0.07 ms at the reading's own 44.1 kHz, not at the session's 96 kHz
    'delay of B samples (at the reading’s rate)': '-3.1',
    'sample rate of the reading Hz': '44100',
    'sample rate of the session Hz': '96000',
    'measured from': 'example: Snare, top & bottom',
    // 9 heard, 8 used, 0.9 of those counted
    'hits that agree': '8',
    'hits counted': '9',
    'hits heard': '22',
    // by hand: 10·lg(1.7/0.3), 10·lg(1.5/0.5)
    'gained by what was done: low octave dB (A and B at equal level)': '7.5',
    'gained by what was done: overall dB (A and B at equal level)': '4.8',
    'accuracy ± ms (90 %)': '0.0235',
    'the drum’s low octave Hz': '177–354',
    'inverted (A, B or both)': 'B',
    'B moved closer cm': '2.5',
    'left on purpose': 'no',
    note: 'before "take" 2',
    initials: 'lv',
    'temperature °C': '20',
    'polarity before': 'same',
    'delay of B before ms': '0.0123',
    'recheck at': '2026-01-02T09:00:00Z',
    'recheck found': 'moved',
    'recheck: B further by cm': '2.4',
  });
});

test('what a spreadsheet would run is text', () => {
  const rows = parse(sheetCsv(sheet).slice(1));
  expect(rows[1]?.[0]).toBe("'-1+1");
  for (const row of rows) for (const value of row) expect(value).not.toMatch(/^[=@+]/);
});

test('what is to be done in the mix, as the whole kit has it: both switches, the delay with A positive, both gains', () => {
  const pair = four.pairs.find(({ id }) => id === 'snareTop-overheadLeft') as Pair;
  const row = (change: Partial<Pair>): Record<string, string> => {
    const only = { ...four, sampleRate: 44100, references: [], pairs: [{ ...pair, acceptedAt: 'x', ...change }] };
    const [head, values] = parse(sheetCsv(only).slice(1)) as [string[], string[]];
    return Object.fromEntries(head.map((name, i) => [name, values[i] as string]));
  };
  const DELAY = 'in the mix: delay ms (positive: delay A, negative: delay B)';
  const LOW = 'gain in the drum’s low octave dB (against leaving it, A and B at equal level)';
  const before = { ...TAKEN, ...planned(timing(-0.3, -0.3), timing(-0.9, -0.8, { delayMs: 2.76 })) };
  expect(row({ before })).toMatchObject({
    'in the mix: invert A': 'no',
    'in the mix: invert B': 'yes',
    [DELAY]: '2.76',
    // by hand: 2.76 · 44.1 = 121.7; 10·lg(1.9/0.7), 10·lg(1.8/0.7)
    'in the mix: delay samples at the session’s rate (positive: delay A, negative: delay B)': '122',
    [LOW]: '4.3',
    'gain overall dB (against leaving it, A and B at equal level)': '4.1',
    'plan for this pair alone': 'the same',
  });
  const other = { ...before, ...planned(timing(0.1, 0.1), timing(0.9, 0.9, { delayMs: -3 })) };
  expect(row({ before: other })).toMatchObject({ 'in the mix: invert B': 'no', [DELAY]: '-3' });
  // of what nobody accepted the plan all the same, and that it wasn't; with a move that can still be made
  const open = row({ before, acceptedAt: null });
  expect(open).toMatchObject({
    'plan status': 'not accepted',
    'in the mix: invert B': 'yes',
    [DELAY]: '2.76',
    [LOW]: '4.3',
  });
  expect(row({ before })['plan status']).toBe('accepted');
  const move = { ...before, ...planned(timing(0.1, 0.1), timing(0.9, 0.9, { moveCm: 3 })) };
  expect(row({ before: move, acceptedAt: null })).toMatchObject({
    [DELAY]: '0',
    'B to move closer cm': '3',
    // by hand: 10·lg(1.9/1.1)
    [LOW]: '2.4',
  });
  // the very words of the hand-over
  const line = (acceptedAt: string | null): string =>
    handOver({ ...four, sampleRate: 44100, references: [], pairs: [{ ...pair, before, acceptedAt }] }).pairs[0]?.line ??
    '';
  expect(line(null)).toBe(`Plan, not accepted: ${open['the plan in words']}.`);
  expect(line('x')).toBe(`In the mix: ${row({ before })['the plan in words']}.`);
  // not read: nothing
  expect(row({ before: null })).toMatchObject({
    'plan status': '',
    'the plan in words': '',
    'in the mix: invert B': '',
  });
  expect(row({ before, done: { ...DONE, leftOnPurpose: true } })).toMatchObject({
    'in the mix: invert B': 'no',
    [DELAY]: '0',
    [LOW]: '0',
    'left on purpose': 'yes',
  });
});
