import { describe, expect, it } from 'vitest';
import type { RealRecording } from '../../support/sound/realRecordings';
import { knockPlaces, perEvent } from '../engine/moves';
import { KNOCKS, type Knock, knockedB, quietest, samplesOf, saysOf } from './knockedFile';
import { type DrumLook, MoveEvents } from './moveWatch';

const look = (fields: Partial<DrumLook> = {}): DrumLook => ({
  id: 1,
  says: false,
  oldUpTo: 0,
  cause: '2 hits',
  ...fields,
});

describe('what counts as one event', () => {
  it('hits are let go, then it is said, then more are let go: one', () => {
    const moves = new MoveEvents();
    moves.note([look()], 8);
    moves.note([look({ oldUpTo: 7 })], 9);
    moves.note([look({ oldUpTo: 7, says: true })], 9);
    moves.note([look({ oldUpTo: 8, says: true })], 10);
    moves.note([look({ oldUpTo: 8 })], 11);
    expect(moves.events).toEqual([{ hits: 9, drum: 1, cause: '2 hits', takenBack: false, said: true }]);
  });

  it('let go, and never said: one, and one more the next time', () => {
    const moves = new MoveEvents();
    moves.note([look({ oldUpTo: 5 })], 9);
    moves.note([look({ oldUpTo: 5 })], 9);
    moves.note([look({ oldUpTo: 5 })], 10);
    moves.note([look({ oldUpTo: 12, cause: '4 hits' })], 16);
    expect(moves.events.map(({ hits, said, cause }) => [hits, said, cause])).toEqual([
      [9, false, '2 hits'],
      [16, false, '4 hits'],
    ]);
  });

  it('a false alarm that is seen is one too', () => {
    const moves = new MoveEvents();
    moves.note([look({ oldUpTo: 7, says: true })], 9);
    moves.note([look()], 10);
    expect(moves.events).toMatchObject([{ takenBack: true }]);
  });

  it('each drum has its own', () => {
    const moves = new MoveEvents();
    moves.note([look({ oldUpTo: 7, says: true }), look({ id: 2 })], 9);
    moves.note([look({ oldUpTo: 7, says: true }), look({ id: 2, says: true })], 10);
    expect(moves.events.map(({ drum }) => drum)).toEqual([1, 2]);
  });

  it('is told as hits an event', () => {
    expect(perEvent(1234, 2)).toBe('1 in 617');
    expect(perEvent(1234, 0)).toBe('none in 1234');
  });
});

const RATE = 44100;
const recording: RealRecording = {
  file: 'none.wav',
  sampleRate: RATE,
  class: 'firm',
  delaySamples: 100,
  toleranceSamples: 6,
  polarity: 'same',
};
const knockOf = (name: string): Knock => KNOCKS.find((knock) => knock.name === name) as Knock;

describe('a knock', () => {
  it('of 2 cm is 2.57 samples', () => expect(samplesOf(2, RATE)).toBeCloseTo(2.57, 2));

  it('is cut in where both are quiet, and nothing before it changes', () => {
    const n = RATE / 2;
    const hits = [0.1, 0.35];
    const made = (early: number): Float32Array =>
      Float32Array.from({ length: n }, (_, i) => {
        const t = i / RATE;
        const since = t < (hits[1] as number) ? t - (hits[0] as number) : t - (hits[1] as number);
        return since < 0 ? 0 : Math.exp(-since * early) * Math.sin(2 * Math.PI * 200 * since);
      });
    const [a, b] = [made(20), made(30)];
    const cut = quietest(a, b, RATE, 0.35);
    expect(cut / RATE).toBeGreaterThan(0.3);
    expect(cut / RATE).toBeLessThan(0.331);
    const it = { recording, a, b, sampleRate: RATE, hits, later: new Map([[0, b]]) };
    const knocked = knockedB(it, knockOf('B inverted'), 1);
    expect(knocked.cut).toBe(cut);
    expect(knocked.b.subarray(0, cut - 100)).toEqual(b.subarray(0, cut - 100));
    expect(knocked.b.subarray(cut + 100)).toEqual(b.subarray(cut + 100).map((v) => 0 - v));
    const moved = knockedB(it, knockOf('+4 cm'), 1);
    const by = samplesOf(4, RATE);
    // in a smooth stretch: the value between the two samples that far before
    const at = Math.round(0.4 * RATE);
    const [early, late] = [b[at - 6] as number, b[at - 5] as number];
    expect(moved.b[at]).toBeCloseTo(early + (6 - by) * (late - early), 3);
  });

  const before = { delaySamples: 101, polarity: 'same' as const };
  const says = (delaySamples: number, polarity: 'same' | 'inverted', knock: string) =>
    saysOf(
      { state: 'measured', delaySamples, polarity, reason: 'agreed' } as Parameters<typeof saysOf>[0],
      before,
      knockOf(knock),
      { recording, sampleRate: RATE },
    );

  it.each([
    [101.2, 'same', '+2 cm', 'old'],
    [102.6, 'same', '+2 cm', 'shown'],
    [98.4, 'same', '−2 cm', 'shown'],
    [101, 'inverted', '+2 cm', 'wrong'],
    [120, 'same', '+4 cm', 'wrong'],
    [80, 'same', '+4 cm', 'wrong'],
    [101, 'inverted', 'B inverted', 'shown'],
    [101, 'same', 'B inverted', 'old'],
    [120, 'inverted', 'B inverted', 'wrong'],
  ] as const)('%f %s after %s: %s', (delay, polarity, knock, expected) => {
    expect(says(delay, polarity, knock)).toBe(expected);
  });

  it.each([
    [{ state: 'listening', reason: 'moved' }, 'moved'],
    [{ state: 'following', reason: 'moving', delaySamples: 104 }, 'moved'],
    [{ state: 'unclear', reason: 'hits-disagree' }, 'open'],
    [{ state: 'listening', reason: 'too-few-hits' }, 'open'],
  ] as const)('%j: %s', (said, expected) => {
    expect(
      saysOf(said as Parameters<typeof saysOf>[0], before, knockOf('+2 cm'), { recording, sampleRate: RATE }),
    ).toBe(expected);
  });

  it('is tried in the middle, and at four places at most, with four hits left after it', () => {
    expect(knockPlaces(20)).toEqual({ middle: 10, places: [8, 11, 14] });
    const { middle, places } = knockPlaces(50);
    expect(middle).toBe(25);
    expect(places.length).toBe(4);
    expect(places[0]).toBe(8);
    expect(places.at(-1)).toBeLessThanOrEqual(46);
  });
});
