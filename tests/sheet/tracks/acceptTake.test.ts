/** Readings of a take on a kit sheet: as those of the meter, and nothing is written over unsaid. */
import { describe, expect, test } from 'vitest';
import { guessMic } from '../../../src/advice/names/guessPair';
import type { Reading } from '../../../src/reading/reading';
import { readSheet, writeSheet } from '../../../src/sheet/document/file';
import { newMicrophone, type Pair } from '../../../src/sheet/document/model';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import { takenFrom } from '../../../src/sheet/pair/taken';
import { sheetCsv } from '../../../src/sheet/print/csv';
import { type AcceptWith, acceptTake } from '../../../src/sheet/tracks/acceptTake';
import { matchTracks } from '../../../src/sheet/tracks/sheetMics';
import type { SheetTake, TrackPair } from '../../../src/sheet/tracks/sheetTake';
import { micsOfTracks, onSheet, sheetOfTake } from '../../../src/sheet/tracks/takeSheet';
import { measured } from '../../advice/readings';
import { start } from '../../support/readings/sheets';

const AT: AcceptWith = {
  at: '2026-01-02T15:00:00.000Z',
  run: 'take 1',
  initials: 'QV',
  temperatureC: 20,
};
const pairOf = (drum: string, a: string, b: string, reading: Reading = measured('same', 60)): TrackPair => ({
  drum,
  a: `${a}.wav`,
  b: `${b}.wav`,
  kind: 'close-overhead',
  reading,
});
const takeOf = (names: readonly string[], pairs: readonly TrackPair[]): SheetTake => ({
  sampleRate: 48_000,
  temperatureC: 20,
  tracks: names.map((name) => ({ file: `${name}.wav`, mic: guessMic(name) })),
  drums: [
    { drum: 'kick', own: 'Kick out.wav' },
    { drum: 'snare', own: 'Snare top.wav' },
  ],
  pairs,
});
const NAMES = ['Kick out', 'Snare top', 'OH L', 'OH R', 'Room'];
const TAKE = takeOf(NAMES, [
  pairOf('kick', 'Kick out', 'OH L'),
  pairOf('kick', 'Kick out', 'Snare top'),
  pairOf('snare', 'Snare top', 'OH L'),
  pairOf('snare', 'OH L', 'OH R', measured('same', 3)),
]);
const on = (sheet: ReturnType<typeof start>, take: SheetTake) =>
  onSheet(sheet, take, matchTracks(take.tracks, sheet.microphones));

describe('a sheet made of a take', () => {
  const sheet = sheetOfTake(TAKE, 'kit', 'Quay');

  test('has a mic a track, and the pairs that decide something, told against the drum’s own mic', () => {
    expect(sheet.microphones.map(({ label, drum, side }) => [label, drum, side])).toEqual([
      ['Kick out', 'kick', 'outside'],
      ['Snare top', 'snare', 'top'],
      ['Overhead left', '', 'above, left'],
      ['Overhead right', '', 'above, right'],
      ['Room', '', 'room'],
    ]);
    const label = (id: string) => sheet.microphones.find((one) => one.id === id)?.label;
    expect(sheet.pairs.map(({ drum, a, b }) => [drum, label(a), label(b)])).toEqual([
      ['kick', 'Kick out', 'Overhead left'],
      ['snare', 'Snare top', 'Overhead left'],
      ['snare', 'Overhead left', 'Overhead right'],
    ]);
    expect(sheet.references.map(({ drum, microphone }) => [drum, label(microphone)])).toEqual([
      ['kick', 'Kick out'],
      ['snare', 'Snare top'],
    ]);
    expect(sheet.follows).toEqual([]);
  });

  test('is a sheet as any other: it can be kept, read again and worked with', () => {
    const { sheet: full, fresh } = acceptTake(sheet, on(sheet, TAKE), TAKE.pairs, AT);
    expect(fresh).toHaveLength(3);
    expect(readSheet(writeSheet(full, AT.at))).toEqual({ sheet: full });
    expect(kitSystem(full).choice?.pairs).toHaveLength(3);
    expect(sheetCsv(full)).toContain('Kick out.wav,OH L.wav');
  });

  test('two tracks that are called alike are two mics', () => {
    const made = micsOfTracks(takeOf(['OH', 'OH Side', 'Room'], []).tracks, [newMicrophone('m', 'Room', '', '', '')]);
    expect(made.map(({ label }) => label)).toEqual(['OH', 'OH Side', 'Room 2']);
  });
});

describe('accepting', () => {
  const sheet = start('four');
  const READ = pairOf('snare', 'Snare top', 'OH L');
  const accept = (pairs: readonly TrackPair[], from = sheet, how = AT) => acceptTake(from, on(from, TAKE), pairs, how);
  const of = (id: string, given: { sheet: typeof sheet }): Pair =>
    given.sheet.pairs.find((one) => one.id === id) as Pair;

  test('what is kept is what the meter would have kept, and of which tracks', () => {
    const pair = of('snareTop-overheadLeft', accept([READ]));
    const taken = takenFrom(READ.reading, {
      takenAt: AT.at,
      run: AT.run,
      initials: 'QV',
      kind: pair.kind,
      temperatureC: 20,
      aInverted: false,
      bInverted: false,
      meterInvert: false,
      turned: false,
      shown: null,
    });
    expect(pair.before).toEqual({ ...taken, files: ['Snare top.wav', 'OH L.wav'] });
    expect([pair.after, pair.acceptedAt]).toEqual([null, AT.at]);
  });

  test('a pair that the sheet has the other way round is told so', () => {
    const turned = {
      ...sheet,
      pairs: sheet.pairs.map((one) => (one.id === 'snareTop-overheadLeft' ? { ...one, a: one.b, b: one.a } : one)),
    };
    const [there, back] = [accept([READ]), accept([READ], turned)].map(
      (given) => of('snareTop-overheadLeft', given).before,
    );
    expect(back?.delayMs).toBe(-(there?.delayMs as number));
    expect(back?.files).toEqual(['OH L.wav', 'Snare top.wav']);
  });

  test('a reading that was there is kept as what was before, where it differs', () => {
    const first = accept([READ]);
    const second = accept([pairOf('snare', 'Snare top', 'OH L', measured('same', 75))], first.sheet);
    expect([second.fresh, second.same, second.changed]).toEqual([[], [], ['snareTop-overheadLeft']]);
    const pair = of('snareTop-overheadLeft', second);
    expect(pair.before).toEqual(of('snareTop-overheadLeft', first).before);
    expect(pair.done?.movedCm).toBeCloseTo(-15, 1);
    const third = accept([pairOf('snare', 'Snare top', 'OH L', measured('same', 75))], second.sheet);
    expect(third.same).toEqual(['snareTop-overheadLeft']);
    expect(of('snareTop-overheadLeft', third)).toMatchObject({ before: pair.before, done: pair.done });
  });

  test('what the sheet hasn’t yet is added; what decides about nothing only where the sheet has it', () => {
    const { sheet: next, fresh, passedOver } = accept(TAKE.pairs);
    expect(passedOver).toBe(1);
    expect(fresh).toContain('overheadLeft-overheadRight');
    const bleed = {
      ...sheet,
      pairs: [...sheet.pairs, { ...(sheet.pairs[0] as Pair), id: 'bleed', a: 'kickOut', b: 'snareTop', drum: 'kick' }],
    };
    expect(accept(TAKE.pairs, bleed).fresh).toContain('bleed');
    expect(next.pairs.length).toBeGreaterThanOrEqual(sheet.pairs.length);
  });

  test('a track that the sheet has no mic for changes nothing', () => {
    const before = accept([pairOf('snare', 'Snare top', 'Room')]);
    expect(before).toMatchObject({ fresh: [], passedOver: 1 });
    expect(before.sheet).toEqual(sheet);
  });
});
