/** A pair of a take on the meter: only where the meter says what the take does, and never as the pair of a round. */
import { createSignal } from 'solid-js';
import { expect, test } from 'vitest';
import type { Reading } from '../../../src/reading/reading';
import type { Source } from '../../../src/state/source/sourceDoor';
import { type CutTakePair, createPairView } from '../../../src/state/take/pairView';
import type { Take } from '../../../src/state/take/take';
import type { ReadPair } from '../../../src/take/pairs/readWhole';
import { measured } from '../../advice/readings';
import { pairReport } from '../../take/reports';

const PLACES = {
  sampleRate: 48_000,
  lengths: { beforeFrames: 4800, frames: 24_000 },
  hits: [
    { begin: 4810, pieceSeconds: 3 },
    { begin: 4790, pieceSeconds: 7.5 },
  ],
};

function view(cutPair: CutTakePair, reading: Reading = measured('same', 60)) {
  const [readAt, setReadAt] = createSignal<Date | null>(new Date(0));
  const whole = {
    drum: 'snare',
    a: 'Snare.wav',
    b: 'OH.wav',
    kind: 'close-overhead',
    maxLagMs: 34,
    places: PLACES,
    reading,
  };
  const done: (Source | 'round stopped')[] = [];
  const take = { pairs: () => [whole as ReadPair], files: () => [], told: () => new Map(), readAt } as unknown as Take;
  const made = createPairView({
    take,
    cutPair,
    meter: { open: async (source) => void done.push(source) },
    stopRound: () => void done.push('round stopped'),
  });
  const { delaySamples } = reading.drums[0] as { delaySamples: number };
  const told = pairReport({
    a: 'Snare.wav',
    b: 'OH.wav',
    polarity: 'same',
    delaySamples: Number(delaySamples.toPrecision(9)),
  });
  return { view: made, told, done, setReadAt };
}
const cut: CutTakePair = async () => ({ type: 'cut', a: new Float32Array(48_000), b: new Float32Array(48_000) });

test('the same hits, as far as the take looked, with their times in it; a round has no pair in hand any more', async () => {
  const { view: made, told, done } = view(cut);
  expect(made.canOpen('snare', told)).toBe(true);
  await made.open('snare', told);
  expect(done[0]).toBe('round stopped');
  const source = done[1] as Extract<Source, { type: 'take' }>;
  expect(source.sound).toMatchObject({
    given: [4810, 28_790],
    maxLagMs: 34,
    label: 'Snare: Snare – OH, 2 hits of the take',
  });
  expect(source.pair).toEqual({ kind: 'close-overhead', labels: ['Snare', 'OH'], drum: 'snare' });
  expect([0.1, 0.6].map(source.takeSeconds)).toEqual([3.1, 7.6]);
});

test('what all tracks together took back isn’t shown as sure by the meter', () => {
  const { view: made, told } = view(cut);
  expect(made.canOpen('snare', { ...told, state: 'unclear', polarity: null, delaySamples: null })).toBe(false);
  expect(made.canOpen('snare', { ...told, delaySamples: (told.delaySamples as number) + 1 })).toBe(false);
});

test('hits that can’t be read again: one sentence, and the meter stays; nor is a take opened that another one followed', async () => {
  const failing = view(async () => ({ type: 'failed', text: 'Gone.' }));
  await failing.view.open('snare', failing.told);
  expect([failing.view.problem(), failing.view.opening(), failing.done]).toEqual(['Gone.', false, []]);
  const late = view(async (asked) => {
    late.setReadAt(new Date(1));
    return cut(asked);
  });
  await late.view.open('snare', late.told);
  expect(late.done).toEqual([]);
});
