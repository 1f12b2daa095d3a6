/** What a take’s readings say together. */
import { describe, expect, test } from 'vitest';
import { guessMic } from '../../../src/advice/names/guessPair';
import { LOW_OCTAVES_HZ } from '../../../src/reading/bands';
import type { Polarity } from '../../../src/reading/reading';
import { sheetOfReadings, type TakeTogether, takeTogether } from '../../../src/sheet/print/takeTogether';
import type { SheetTake, TrackPair } from '../../../src/sheet/tracks/sheetTake';
import { sheetOfTake } from '../../../src/sheet/tracks/takeSheet';
import { measured } from '../../advice/readings';

const NAMES = ['Snare', 'Tom', 'OH L', 'OH R'];
const FILES = NAMES.map((name) => `${name}.wav`);

const pair = (drum: string, a: string, b: string, polarity: Polarity, cm: number): TrackPair => ({
  drum,
  a: `${a}.wav`,
  b: `${b}.wav`,
  kind: 'close-overhead',
  reading: measured(polarity, cm, { uncertaintySamples: 2 }),
});

function said(pairs: readonly TrackPair[]): TakeTogether {
  const take: SheetTake = {
    sampleRate: 48_000,
    temperatureC: 20,
    tracks: NAMES.map((name) => ({ file: `${name}.wav`, mic: guessMic(name) })),
    drums: [
      { drum: 'snare', own: 'Snare.wav' },
      { drum: 'tom', own: 'Tom.wav' },
    ],
    pairs,
  };
  const how = { at: '2026-01-02T15:00:00.000Z', run: 'take', initials: '', temperatureC: 20 };
  return takeTogether(sheetOfReadings(sheetOfTake(take, 'kit', ''), take, how), FILES);
}

const inverted = ({ polarities }: TakeTogether): string[] =>
  polarities.filter(({ invert }) => invert).map(({ file }) => file);

describe('switches', () => {
  const pairs = (ofTom: Polarity): TrackPair[] => [
    pair('snare', 'Snare', 'OH L', 'same', 1),
    pair('snare', 'Snare', 'OH R', 'same', 1),
    pair('snare', 'OH L', 'OH R', 'same', 0),
    pair('tom', 'Tom', 'OH L', ofTom, 1),
    pair('tom', 'Tom', 'OH R', ofTom, 1),
  ];

  test('every track has its line, and where all is well none is pressed', () => {
    const { polarities, sentences, doubts } = said(pairs('same'));
    expect(polarities.map(({ file }) => file)).toEqual(FILES);
    expect(inverted(said(pairs('same')))).toEqual([]);
    expect(sentences[0]).toMatch(/^Leave all polarity switches/);
    expect(doubts).toEqual([]);
  });

  test('the one that stands against all others is the one to press, for every drum', () => {
    const together = said(pairs('inverted'));
    expect(inverted(together)).toEqual(['Tom.wav']);
    expect(together.sentences[0]).toBe('Invert Tom.');
  });
});

describe('closure', () => {
  const triangle = (last: number, polarity: Polarity = 'same'): TrackPair[] => [
    pair('snare', 'Snare', 'OH L', 'same', 60),
    pair('snare', 'Snare', 'OH R', 'same', 80),
    pair('snare', 'OH L', 'OH R', polarity, last),
  ];

  test('three that add up are closed', () => {
    const [snare] = said(triangle(20)).closure;
    expect(snare).toMatchObject({ drum: 'snare', pairs: 3, open: [], contradiction: [], suspects: [] });
  });

  test('three that don’t are told with by how much, and to people', () => {
    const { closure, doubts } = said(triangle(50));
    expect(closure[0]?.open[0]?.pairs.flat().sort()).toEqual(
      ['OH L.wav', 'OH R.wav', 'Snare.wav'].flatMap((file) => [file, file]),
    );
    // 30 cm at 343.2 m/s
    expect(Math.abs(closure[0]?.open[0]?.errorMs as number)).toBeCloseTo(30 / 34.32, 2);
    expect(doubts[0]).toMatch(/^Snare: the delays of .* don’t add up/);
  });

  test('polarities that can’t all be right are told', () => {
    const { closure, doubts } = said(triangle(20, 'inverted'));
    expect(closure[0]?.contradiction).toHaveLength(3);
    expect(doubts[0]).toMatch(/can’t all be right/);
  });
});

test('several mics on one drum: the set of polarities that gives most, from the same hits', () => {
  const files = ['Snare Top', 'Snare Bottom', 'Snare Shell', 'OH L'];
  const read = (a: string, b: string, polarity: Polarity): TrackPair => {
    const fullerLowHz = LOW_OCTAVES_HZ[2] as number;
    const lowOctaves = new Array<number>(4).fill(polarity === 'same' ? 0.8 : -0.8);
    return {
      ...pair('snare', a, b, polarity, 1),
      reading: measured(polarity, 1, { lowOctaves, fullerLowHz, fullerHighHz: 2 * fullerLowHz }),
    };
  };
  const take: SheetTake = {
    sampleRate: 48_000,
    temperatureC: 20,
    tracks: files.map((name) => ({ file: `${name}.wav`, mic: guessMic(name) })),
    drums: [{ drum: 'snare', own: 'Snare Top.wav' }],
    pairs: [
      read('Snare Top', 'Snare Bottom', 'inverted'),
      read('Snare Top', 'Snare Shell', 'same'),
      read('Snare Bottom', 'Snare Shell', 'inverted'),
    ],
  };
  const how = { at: '2026-01-02T15:00:00.000Z', run: 'take', initials: '', temperatureC: 20 };
  const { sentences } = takeTogether(
    sheetOfReadings(sheetOfTake(take, 'kit', ''), take, how),
    files.map((name) => `${name}.wav`),
  );
  const group = sentences.find((text) => text.startsWith('Snare, 3 together: '));
  expect(group).toMatch(/ with the switches above, the best that polarity can do\.$/);
  expect(group).not.toMatch(/different hits/);
});

test('nothing read: nothing is said', () => {
  const together = said([]);
  expect(together).toMatchObject({ delays: [], closure: [], sentences: [], doubts: [] });
  expect(inverted(together)).toEqual([]);
});
