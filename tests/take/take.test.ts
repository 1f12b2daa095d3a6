/** Whole takes: real ones, and what is laid on one beginning. */
import { describe, expect, test } from 'vitest';
import { WavError } from '../../src/files/wavChunks';
import type { TakeTrack } from '../../src/take/model';
import { readTake, TakeCancelled } from '../../src/take/readTake';
import { aligned } from '../../src/take/report/tracks';
import { TAKES_ABSENT, takesHere, takeTrack, takeTruth } from '../bench/engine/takes';
import { struckPair } from '../support/sound/struckPair';

const track = (file: string, x: Float32Array, more: Partial<TakeTrack> = {}): TakeTrack => ({
  file,
  channel: 1,
  sampleRate: 44_100,
  frames: x.length,
  startFrame: null,
  async read(from, into) {
    const part = x.subarray(from, from + into.length);
    into.set(part);
    return part.length;
  },
  ...more,
});

describe('one beginning', () => {
  const x = Float32Array.from({ length: 10 }, (_, i) => i + 1);
  const heard = async (tracks: TakeTrack[]): Promise<(number[] | null)[]> =>
    Promise.all(
      aligned(tracks).tracks.map(async (one) => {
        if (one === null) return null;
        const into = new Float32Array(6);
        await one.read(0, into);
        return [...into];
      }),
    );

  test('files that say when they begin are laid on each other by it', async () => {
    const tracks = [track('a', x, { startFrame: 1002 }), track('b', x, { startFrame: 1000 })];
    expect(await heard(tracks)).toEqual([
      [0, 0, 1, 2, 3, 4],
      [1, 2, 3, 4, 5, 6],
    ]);
  });

  test('where one doesn’t say, all begin together', async () => {
    expect(await heard([track('a', x, { startFrame: 1002 }), track('b', x)])).toEqual([
      [1, 2, 3, 4, 5, 6],
      [1, 2, 3, 4, 5, 6],
    ]);
  });

  test('another rate, and what can’t be read, are said and left out', async () => {
    const take = aligned([
      track('a', x),
      track('b', x),
      track('c', x, { sampleRate: 48_000 }),
      track('d', x, { problem: 'Not audio.' }),
    ]);
    expect(take.sampleRate).toBe(44_100);
    expect(take.tracks.map((one) => one !== null)).toEqual([true, true, false, false]);
    expect(take.reasons[2]).toMatch(/48000 Hz.*44100 Hz.*one rate/);
    expect(take.reasons[3]).toBe('Not audio.');
    expect(() => aligned([track('d', x, { problem: 'Not audio.' })])).toThrow(/no track that can be read/);
  });
});

describe('what can’t be read', () => {
  const { a, b } = struckPair({ sampleRate: 44_100, hits: 6, delaySamples: 30, polarity: 'same' });
  const damaged = async (): Promise<number> => {
    throw new WavError('unsupported', 'is damaged in the middle.');
  };

  test('a file that is damaged on the way is said, and the rest is read', async () => {
    const tracks = [track('01 Snare.wav', a), track('02 OH.wav', b), track('03 Room.flac', b, { read: damaged })];
    const report = await readTake(tracks);
    expect(report.tracks[2]).toMatchObject({ state: 'unreadable', reason: 'is damaged in the middle.' });
    expect(report.drums[0]?.pairs[0]).toMatchObject({ state: 'measured', polarity: 'same' });
  });

  test('silence in all tracks: each is named, and nothing is made up', async () => {
    const silent = new Float32Array(a.length);
    const report = await readTake([track('01 Snare.wav', silent), track('02 OH.wav', silent)]);
    expect(report.faults.map(({ kind }) => kind)).toEqual(['silent', 'silent']);
    expect([report.hits, report.drums]).toEqual([[], []]);
    expect(JSON.stringify(report)).not.toMatch(/NaN|Infinity/);
  });

  test('somebody cancels', async () => {
    let looks = 0;
    const isCancelled = (): boolean => ++looks > 2;
    await expect(readTake([track('01 Snare.wav', a), track('02 OH.wav', b)], { isCancelled })).rejects.toThrow(
      TakeCancelled,
    );
  });
});

describe.skipIf(!takesHere)('a real kit, seven tracks', () => {
  /** the take’s room is digitally silent between the hits */
  const open = (take: string, change: (file: string, x: Float32Array) => Float32Array = (_, x) => x): TakeTrack[] =>
    (takeTruth(take) as unknown as { tracks: { file: string }[] }).tracks.map(({ file }) => {
      const { x } = takeTrack(take, file.replace('.wav', ''));
      return track(file, change(file, x));
    });
  const drumAt = (report: Awaited<ReturnType<typeof readTake>>, seconds: number): string[] =>
    report.hits.find(({ timeSeconds }) => Math.abs(timeSeconds - seconds) < 0.02)?.drums ?? [];

  test('one drum after the other: who was struck, every firm pair, and nothing wrong', {
    timeout: 120_000,
  }, async () => {
    const report = await readTake(open('kit-b-solo'));
    const truth = takeTruth('kit-b-solo');
    expect(report.faults).toEqual([]);
    const named = new Map<string, Set<string>>();
    for (const { drum, seconds } of truth.hits) {
      const struck = drumAt(report, seconds);
      expect(struck, `${drum} at ${seconds} s`).toHaveLength(1);
      named.set(drum, (named.get(drum) ?? new Set()).add(struck[0] as string));
    }
    // each drum of the kit has one name, and no two have the same
    expect([...named.values()].map(({ size }) => size)).toEqual(truth.drums.map(() => 1));
    expect(new Set([...named.values()].map(([name]) => name)).size).toBe(truth.drums.length);
    const answers = truth.drums.flatMap(({ drum, ownTrack, others }) =>
      Object.entries(others)
        .filter(([, { firm }]) => firm)
        .map(([other, { delaySamples, polarity, toleranceSamples }]) => {
          const [name] = named.get(drum) ?? [];
          const [a, b] = [`${ownTrack}.wav`, `${other}.wav`];
          const pairs = report.drums.find((one) => one.drum === name)?.pairs ?? [];
          const read = pairs.find((pair) => (pair.a === a && pair.b === b) || (pair.a === b && pair.b === a));
          if (read?.state !== 'measured' || read.delaySamples === null) return 'none';
          const delay = read.a === a ? read.delaySamples : -read.delaySamples;
          return read.polarity === polarity && Math.abs(delay - delaySamples) <= toleranceSamples ? 'right' : 'wrong';
        }),
    );
    expect(answers.filter((answer) => answer === 'wrong')).toEqual([]);
    expect(answers.filter((answer) => answer === 'right').length).toBeGreaterThanOrEqual(
      Math.ceil(0.9 * answers.length),
    );
  });

  test('in a groove every kick and snare is found, whatever is struck with it, and the snare’s firm pairs are right, by all tracks where a pair alone can’t tell', {
    timeout: 120_000,
  }, async () => {
    const report = await readTake(open('kit-b-groove'));
    for (const drum of ['kick', 'snare']) {
      const hits = takeTruth('kit-b-groove').hits.filter((hit) => hit.drum === drum);
      expect(hits.filter(({ seconds }) => drumAt(report, seconds).includes(drum)).length).toBeGreaterThanOrEqual(
        0.95 * hits.length,
      );
    }
    const pairs = report.drums.find(({ drum }) => drum === 'snare')?.pairs ?? [];
    const others = takeTruth('kit-b-groove').drums.find(({ drum }) => drum === 'snare')?.others ?? {};
    const firm = Object.entries(others).filter(([, { firm }]) => firm);
    expect(firm.length).toBe(3);
    for (const [other, { delaySamples, polarity, toleranceSamples }] of firm) {
      const pair = pairs.find(({ a, b }) => a === '02 Snare.wav' && b === `${other}.wav`);
      expect(pair, other).toMatchObject({ state: 'measured', polarity });
      expect(Math.abs((pair?.delaySamples ?? Number.NaN) - delaySamples), other).toBeLessThanOrEqual(toleranceSamples);
    }
    expect(pairs.some(({ from }) => from === 'others')).toBe(true);
    expect(report.faults).toEqual([]);
  });

  test('planted faults are named, and nobody else', { timeout: 120_000 }, async () => {
    const kick = takeTrack('kit-b-solo', '01 Kick').x;
    const snare = takeTrack('kit-b-solo', '02 Snare').x;
    const report = await readTake(
      open('kit-b-solo', (file, x) => {
        if (file.startsWith('01')) return snare;
        if (file.startsWith('02')) return kick;
        if (file.startsWith('05')) return x.map(() => 0);
        return file.startsWith('06') ? x.map((v) => -v) : x;
      }),
    );
    expect(report.faults.map(({ kind, files }) => [kind, files])).toEqual([
      ['silent', ['05 Room Front.wav']],
      ['swapped', ['01 Kick.wav', '02 Snare.wav']],
      ['inverted', ['06 Room Window.wav']],
    ]);
  });
});

test.skipIf(takesHere)('the real takes', ({ skip }) => skip(TAKES_ABSENT));
