/** A take’s readings on the open kit sheet, and the meter on one of its pairs afterwards. */
import { afterEach, expect, test } from 'vitest';
import type { TakeEvents } from '../../../src/audio/take/readTakeFiles';
import { answerOf, type Reading } from '../../../src/reading/reading';
import { memoryKeeper } from '../../../src/state/settings/keeper';
import { createTake } from '../../../src/state/take/take';
import { createTakeSheet } from '../../../src/state/take/takeSheet';
import type { TakeReport } from '../../../src/take/model';
import type { ReadPair } from '../../../src/take/pairs/readWhole';
import { drumReport } from '../../take/reports';
import { type Bench, BOTTOM, dispose, live, pairOf, sure } from '../round/roundBench';

afterEach(() => dispose?.());

/** @param delaySamples what the report says; null: what the reading says */
function takeOn(made: Bench, reading: Reading, delaySamples: number | null = null) {
  let events: TakeEvents | null = null;
  const take = createTake({
    keeper: memoryKeeper(),
    temperatureC: () => 20,
    now: () => new Date(made.clock.ms),
    readFiles(_, to) {
      events = to;
      return { cancel: () => undefined };
    },
  });
  const files = ['Snare top.wav', 'Snare bottom.wav'];
  take.read(files.map((name) => new File([], name)));
  const [a, b] = files as [string, string];
  const answer = answerOf(reading);
  const told = { a, b, polarity: answer.polarity, delaySamples: delaySamples ?? answer.delaySamples };
  const drum = drumReport('snare', a, [told]);
  const to = events as unknown as TakeEvents;
  to.onDrum(drum, [{ drum: 'snare', a, b, kind: 'top-bottom', reading } as ReadPair]);
  const tracks = files.map((file) => ({ file, state: 'ok' }));
  to.onReport({ sampleRate: 48_000, tracks, drums: [drum] } as unknown as TakeReport);
  return createTakeSheet({
    take,
    kit: () => made,
    temperatureC: () => 20,
    newId: () => 'made',
    now: () => new Date(made.clock.ms),
  });
}

test('accepted, said, and undone in one step', async () => {
  const made = await live();
  const ofSheet = takeOn(made, sure('inverted', 3));
  expect(ofSheet.would('snare')?.fresh).toEqual([BOTTOM]);
  ofSheet.accept(null);
  expect(ofSheet.said()).toBe('Accepted 1 reading: 1 new.');
  expect(pairOf(made.shelf, BOTTOM).before).toMatchObject({
    polarity: 'inverted',
    files: ['Snare top.wav', 'Snare bottom.wav'],
  });
  made.shelf.undo();
  expect(pairOf(made.shelf, BOTTOM)).toMatchObject({ before: null, acceptedAt: null });
});

test('a reading that isn’t what the report says is never put on a sheet', async () => {
  const made = await live();
  const ofSheet = takeOn(made, sure('inverted', 3), 40);
  ofSheet.accept(null);
  expect(pairOf(made.shelf, BOTTOM).before).toBeNull();
});

test('the meter then refines a single pair: rechecked against it, and measured anew', async () => {
  const made = await live();
  takeOn(made, sure('inverted', 3)).accept(null);
  const { round, shelf, say } = made;
  round.begin(BOTTOM, 'check');
  round.enter();
  say(sure('inverted', 9));
  expect(round.compared()).toMatchObject({ change: 'moved' });
  expect(pairOf(shelf, BOTTOM).checked?.fartherCm).toBeCloseTo(6, 1);
  round.begin(BOTTOM, 'measure');
  round.enter();
  say(sure('inverted', 9));
  round.enter();
  const { before, acceptedAt } = pairOf(shelf, BOTTOM);
  expect(before?.delayMs).toBeCloseTo(0.262, 2);
  expect([before?.files, acceptedAt === null]).toEqual([undefined, false]);
});

test('a sheet made of it is open at once', async () => {
  const made = await live();
  const ofSheet = takeOn(made, sure('inverted', 3));
  await made.shelf.close();
  expect(ofSheet.sheet()).toBeNull();
  await ofSheet.make();
  expect(ofSheet.said()).toBe('2 mics and 1 pair are on a new kit sheet.');
  expect(ofSheet.sheet()?.microphones.map(({ label }) => label)).toEqual(['Snare top', 'Snare bottom']);
  expect(ofSheet.would(null)?.fresh).toHaveLength(1);
});
