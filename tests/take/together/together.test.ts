/** Pairs that their own hits leave open, answered from all tracks: sounds made for it, every hit another noise. */
import { describe, expect, test } from 'vitest';
import { answerOf } from '../../../src/reading/reading';
import type { PairReport } from '../../../src/take/model';
import type { ReadPair } from '../../../src/take/pairs/readWhole';
import { settled } from '../../../src/take/together/settled';
import { settle } from '../../../src/take/together/together';
import { measured, reading } from '../../advice/readings';
import { seeded } from '../../support/sound/signals';
import { pairReport, type Read } from '../reports';

const RATE = 48_000;
const HITS = 10;
const BEGIN = 2400;
const FRAMES = 9600;
/** frames after the own track, sign, and how much of it is the drum's own sound: the rest is noise that no other track has */
const TRACKS = {
  own: { at: 0, sign: 1, shared: 0.7 },
  left: { at: 150, sign: 1, shared: 0.6 },
  right: { at: 171, sign: -1, shared: 0.6 },
  near: { at: 62, sign: -1, shared: 0.5 },
  far: { at: 480, sign: 1, shared: 0.5 },
  elsewhere: { at: 90, sign: 1, shared: 0 },
};
type Track = keyof typeof TRACKS;
const NAMES = Object.keys(TRACKS) as Track[];

/** Every hit a new burst of noise that dies away; nothing of its waveform comes twice. */
function pieces(): Map<string, Float32Array[]> {
  const random = seeded(7);
  const noise = (): Float64Array => Float64Array.from({ length: 2000 }, () => random() - 0.5);
  const list = new Map<string, Float32Array[]>(NAMES.map((name) => [name, []]));
  for (let h = 0; h < HITS; h++) {
    const burst = noise();
    for (const name of NAMES) {
      const { at, sign, shared } = TRACKS[name];
      const own = noise();
      const x = new Float32Array(FRAMES);
      burst.forEach((v, i) => {
        const sound = sign * Math.sqrt(shared) * v + Math.sqrt(1 - shared) * own[i];
        x[BEGIN + at + i] = sound * Math.exp(-i / 600) * (1 - Math.exp(-i / 20));
      });
      list.get(name)?.push(x);
    }
  }
  return list;
}

const SOUND = { sampleRate: RATE, pieces: pieces(), begins: Array<number>(HITS).fill(BEGIN) };

const truth = (a: Track, b: Track): Pick<PairReport, 'delaySamples' | 'polarity'> => ({
  delaySamples: TRACKS[b].at - TRACKS[a].at,
  polarity: TRACKS[a].sign === TRACKS[b].sign ? 'same' : 'inverted',
});
const sure = (a: Track, b: Track, more: Partial<Read> = {}): PairReport =>
  pairReport({
    a,
    b,
    kind: 'other',
    from: 'hits',
    uncertaintySamples: 4,
    reasonCode: 'agreed',
    perHit: [],
    ...truth(a, b),
    ...more,
  });
const open = (a: Track, b: Track, more: Partial<Read> = {}): PairReport =>
  sure(a, b, { state: 'unclear', reasonCode: 'arrival-hidden', delaySamples: null, polarity: null, ...more });

const KNOWN = [sure('own', 'left'), sure('own', 'right'), sure('left', 'right')];

describe('an open pair', () => {
  test('of two that others are sure with follows from these', () => {
    const pairs = [
      sure('own', 'left'),
      sure('own', 'right'),
      sure('far', 'left'),
      sure('far', 'right'),
      open('own', 'far'),
    ];
    expect(settle(pairs, SOUND)[4]).toMatchObject({ kind: 'answer', delaySamples: 480, sign: 1 });
  });

  test('of a track that is sure with none is read from all hits and tracks at once, its sign too', () => {
    const answers = settle([...KNOWN, open('own', 'near'), open('own', 'far')], SOUND).slice(3);
    for (const [i, name] of (['near', 'far'] as const).entries()) {
      expect(answers[i]).toMatchObject({ kind: 'answer', sign: TRACKS[name].sign });
      expect(Math.abs((answers[i] as { delaySamples: number }).delaySamples - TRACKS[name].at)).toBeLessThan(1);
    }
  });

  test('stays open where the track has nothing in common with the others', () => {
    expect(settle([...KNOWN, open('own', 'elsewhere')], SOUND)[3]).toBeNull();
  });

  test('stays open where too few tracks are known', () => {
    expect(settle([sure('own', 'left'), open('own', 'near')], SOUND)[1]).toBeNull();
  });

  test('stays as it is where a track has the low end only, or there are too few hits', () => {
    const pairs = [
      ...KNOWN,
      open('own', 'near', { reasonCode: 'lows-only-b' }),
      open('own', 'far', { reasonCode: 'too-few-hits' }),
    ];
    expect(settle(pairs, SOUND).slice(3)).toEqual([null, null]);
  });

  test('is read where no pair at all is sure, if five tracks bear each other out, and else stays open', () => {
    const all = (names: readonly Track[]): PairReport[] =>
      names.flatMap((a, i) => names.slice(i + 1).map((b) => open(a, b)));
    const pairs = all(['own', 'left', 'right', 'near', 'far']);
    for (const [i, answer] of settle(pairs, SOUND).entries()) {
      const { delaySamples, polarity } = truth(pairs[i].a as Track, pairs[i].b as Track);
      expect(answer).toMatchObject({ kind: 'answer', sign: polarity === 'same' ? 1 : -1 });
      expect(Math.abs((answer as { delaySamples: number }).delaySamples - (delaySamples ?? 0))).toBeLessThan(1);
    }
    expect(settle(all(['own', 'left', 'right', 'elsewhere']), SOUND).every((answer) => answer === null)).toBe(true);
  });

  test('is found too where the drum’s own track is sure with none', () => {
    const pairs = [
      open('own', 'left'),
      sure('left', 'right'),
      sure('left', 'far'),
      sure('right', 'far'),
      open('own', 'near'),
    ];
    expect(settle(pairs, SOUND)[0]).toMatchObject({ kind: 'answer', sign: 1 });
    expect(settle(pairs, SOUND)[4]).toMatchObject({ kind: 'answer', sign: -1 });
  });
});

describe('in the report', () => {
  /** of each pair the whole reading that it was made of */
  const wholeOf = (pairs: readonly PairReport[]): ReadPair[] =>
    pairs.map((pair): ReadPair => {
      const { a, b, state } = pair;
      const read =
        state === 'measured'
          ? measured('same', 10)
          : reading({ state: 'unclear', reason: 'arrival-hidden', drum: 1, hits: 10 });
      return { drum: 'snare', a, b, kind: 'other', reading: read } as ReadPair;
    });
  const told = (pairs: readonly PairReport[]): ReturnType<typeof settled> => settled(pairs, wholeOf(pairs), SOUND, 20);

  test('an answer from others says so, and whose it is, also in the whole reading', () => {
    const { pairs, whole } = told([...KNOWN, open('own', 'near')]);
    expect(pairs[3]).toMatchObject({ from: 'others', state: 'measured', polarity: 'inverted', spreadSamples: null });
    expect(pairs[3]?.delaySamples).toBeCloseTo(62, 0);
    expect(pairs[3]?.reason).toMatch(/^Its own hits leave it open; .*against left and right/);
    expect(answerOf((whole[3] as ReadPair).reading)).toMatchObject({ state: 'measured', polarity: 'inverted' });
  });

  test('a sure pair that two others contradict is none', () => {
    const pair = told([...KNOWN, sure('far', 'left'), sure('far', 'right'), sure('own', 'far', { delaySamples: 390 })])
      .pairs[5];
    expect(pair).toMatchObject({ state: 'unclear', delaySamples: null, polarity: null });
    expect(pair?.reason).toMatch(/left and right.*say something else/);
  });

  test('what is sure stays to the letter', () => {
    expect(told(KNOWN).pairs).toEqual(KNOWN);
  });
});
