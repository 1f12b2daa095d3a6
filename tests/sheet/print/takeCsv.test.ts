/** A take’s offsets and inverts as a table. */
import { describe, expect, test } from 'vitest';
import { guessMic } from '../../../src/advice/names/guessPair';
import type { Polarity } from '../../../src/reading/reading';
import { changeMicrophone } from '../../../src/sheet/document/edits';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import { takeCsv } from '../../../src/sheet/print/takeCsv';
import { sheetOfReadings } from '../../../src/sheet/print/takeTogether';
import { acceptTake } from '../../../src/sheet/tracks/acceptTake';
import { matchTracks } from '../../../src/sheet/tracks/sheetMics';
import type { SheetTake, TrackPair } from '../../../src/sheet/tracks/sheetTake';
import { onSheet, sheetOfTake } from '../../../src/sheet/tracks/takeSheet';
import { measured } from '../../advice/readings';
import { parse } from '../../support/readings/csvRows';

const HOW = { at: '2026-01-02T15:00:00.000Z', run: 'take', initials: '', temperatureC: 20 };
/** At 20 °C sound goes 34.32 cm in a ms. */
const CM_PER_MS = 34.32;
const pair = (a: string, b: string, polarity: Polarity, cm: number): TrackPair => ({
  drum: 'snare',
  a: `${a}.wav`,
  b: `${b}.wav`,
  kind: 'close-overhead',
  reading: measured(polarity, cm, { uncertaintySamples: 2 }),
});
const takeOf = (pairs: readonly TrackPair[]): SheetTake => ({
  sampleRate: 48_000,
  temperatureC: 20,
  tracks: ['Snare', 'OH L', 'OH R'].map((name) => ({ file: `${name}.wav`, mic: guessMic(name) })),
  drums: [{ drum: 'snare', own: 'Snare.wav' }],
  pairs,
});
const TRACKS = ['Snare.wav', 'OH L.wav', 'OH R.wav'].map((file) => ({ file, reason: '' }));

function table(take: SheetTake, tracks = TRACKS, sheet = sheetOfTake(take, 'kit', 'Quay')) {
  const [head = [], ...rows] = parse(takeCsv(sheetOfReadings(sheet, take, HOW), tracks));
  head[0] = (head[0] as string).replace('\uFEFF', '');
  return rows.map((row) => Object.fromEntries(row.map((value, i) => [head[i] as string, value])));
}

describe('a row a track', () => {
  const take = takeOf([pair('Snare', 'OH L', 'inverted', 60), pair('Snare', 'OH R', 'same', 80)]);
  const rows = table(take);

  test('where the drum arrives is what was read, against the drum’s own mic', () => {
    const at = rows.map((row) => Number(row['snare: arrives after Snare ms']));
    [0, 60 / CM_PER_MS, 80 / CM_PER_MS].forEach((ms, i) => {
      expect(at[i]).toBeCloseTo(ms, 2);
    });
    expect(Number(rows[1]?.['snare: ± ms (90 %)'])).toBeCloseTo(2 / 48, 2);
  });

  test('what to delay and to invert is what the kit sheet says of the same readings', () => {
    const sheet = sheetOfTake(take, 'kit', 'Quay');
    const mics = matchTracks(take.tracks, sheet.microphones);
    const { choice } = kitSystem(acceptTake(sheet, onSheet(sheet, take, mics), take.pairs, HOW).sheet);
    const ids = TRACKS.map(({ file }) => mics.get(file) as string);
    expect(rows.map((row) => row.invert)).toEqual(ids.map((id) => (choice.invert.includes(id) ? 'yes' : 'no')));
    for (const [i, id] of ids.entries()) {
      const ms = choice.delays.find(({ microphone }) => microphone === id)?.delayMs ?? 0;
      expect(Number(rows[i]?.['delay to add ms'])).toBeCloseTo(ms, 3);
      expect(Number(rows[i]?.['delay to add samples'])).toBe(Math.round(48 * ms));
      expect(Number(rows[i]?.['delay to add cm'])).toBeCloseTo(CM_PER_MS * ms, 0);
    }
    expect(rows.some((row) => Number(row['delay to add samples']) > 0)).toBe(true);
    expect(rows[1]).toMatchObject({ invert: 'yes', 'from drums': 'snare', 'to mind': '' });
  });
});

test('readings that contradict each other are said in the rows that they are of', () => {
  const rows = table(
    takeOf([
      pair('Snare', 'OH L', 'same', 60),
      pair('Snare', 'OH R', 'same', 80),
      pair('OH L', 'OH R', 'inverted', 60),
    ]),
  );
  for (const row of rows) {
    expect(row['to mind']).toContain('snare: its polarities can’t all be right');
    expect(row['to mind']).toContain('snare: delays don’t add up, off by');
  }
});

test('a track that wasn’t read says why, and none is taken for a formula', () => {
  const take = takeOf([pair('Snare', 'OH L', 'same', 60)]);
  const sheet = sheetOfTake(take, 'kit', 'Quay');
  const named = changeMicrophone(sheet, sheet.microphones[0]?.id as string, { label: '=Snare' });
  const told = {
    ...take,
    tracks: [{ file: 'Snare.wav', mic: { ...guessMic('Snare'), label: '=Snare' } }, ...take.tracks.slice(1)],
  };
  const rows = table(told, [...TRACKS, { file: '+1.wav', reason: 'It is silent.' }], named);
  expect(rows.map((row) => [row.file, row.mic])).toEqual([
    ['Snare.wav', "'=Snare"],
    ['OH L.wav', 'Overhead left'],
    ['OH R.wav', 'Overhead right'],
    ["'+1.wav", ''],
  ]);
  expect(rows[3]?.['to mind']).toBe('It is silent.');
  expect(rows[2]?.['to mind']).toBe('no certain reading of it');
  for (const value of rows.flatMap((row) => Object.values(row))) expect(value).not.toMatch(/^[=+@]/);
});
