import { describe, expect, it } from 'vitest';
import { InputJudge } from '../../../src/audio/live/inputJudge';
import type { InputNoise } from '../../../src/reading/reading';
import { type Doing, hourAtTheKit, NOISES, NoiseWindows, WINDOW_SECONDS } from '../../support/readings/noiseWindows';

/** of another device, whose two gains differ by 3 dB more */
const OTHER = { ...NOISES.other, one: NOISES.other.one.map((db) => db + 3) };

const NOTHING = (): Partial<Doing> => ({});

type Noise = { one: readonly number[]; two: readonly number[] };

/** 15 s of one, then `after` for 10 s. @returns s from then on until another input is said to be heard; null: never */
function noticed(
  before: Noise,
  after: Noise,
  { seed = 1, doing = NOTHING, doingBefore = null as typeof NOTHING | null, swapped = false } = {},
  breakSeconds = 0,
): number | null {
  const made = new NoiseWindows(seed);
  const judge = new InputJudge();
  for (let i = 0; i < 60; i++) expect(judge.push(made.next(before, (doingBefore ?? doing)()), swapped)).toBe(false);
  if (breakSeconds > 0) judge.push(made.next(before, { zeroSeconds: breakSeconds }), swapped);
  for (let i = 1; i <= 40; i++) if (judge.push(made.next(after, doing()), swapped)) return i * WINDOW_SECONDS;
  return null;
}

describe('another input', () => {
  it('is noticed by its noise within 4 s of a break in the data', () => {
    expect(noticed(NOISES.close, NOISES.room, {}, 0.3)).toBeLessThan(4);
    expect(noticed(NOISES.room, OTHER, {}, 0.3)).toBeLessThan(4);
    expect(noticed(NOISES.other, NOISES.close, {}, 0.3)).toBeLessThan(4);
  });

  it('and while the drummer plays', () => {
    const made = new NoiseWindows(2);
    const doing = (): Partial<Doing> =>
      made.chance() < 0.4 ? { over: [made.between(10, 40), made.between(10, 40)] } : {};
    expect(noticed(NOISES.close, NOISES.room, { doing }, 0.3)).toBeLessThan(6);
  });

  it('without a break where its noise can’t be the same room’s: some bands up and others down, or one channel up and one down', () => {
    expect(noticed(NOISES.room, OTHER)).toBeLessThan(4);
    const { one, two } = NOISES.room;
    expect(noticed(NOISES.room, { one: one.map((db) => db + 10), two: two.map((db) => db - 8) })).toBeLessThan(4);
  });

  it('when the system has found another device just now', () => {
    const made = new NoiseWindows(3);
    const judge = new InputJudge();
    for (let i = 0; i < 60; i++) judge.push(made.next(NOISES.close), false);
    judge.doubt();
    const said = Array.from({ length: 40 }, () => judge.push(made.next(NOISES.room), false));
    expect(said.filter(Boolean)).toHaveLength(1);
  });

  it('is no more than suspected, for 10 s, where both channels heard a fan begin', () => {
    const made = new NoiseWindows(5);
    const judge = new InputJudge();
    const { one, two } = NOISES.close;
    const lows = (db: number, k: number): number => (k < 4 ? db + 15 : db);
    for (let i = 0; i < 60; i++)
      expect([judge.push(made.next(NOISES.close), false), judge.isSuspect]).toEqual([false, false]);
    const suspected = Array.from({ length: 80 }, () => {
      expect(judge.push(made.next({ one: one.map(lows), two: two.map(lows) }), false)).toBe(false);
      return judge.isSuspect;
    });
    expect(suspected.indexOf(true) * WINDOW_SECONDS).toBeLessThan(2);
    expect(suspected.filter(Boolean).length * WINDOW_SECONDS).toBeLessThan(14);
    expect(suspected.at(-1)).toBe(false);
  });

  it('is said once; the new one is what the next is compared with', () => {
    const made = new NoiseWindows(4);
    const judge = new InputJudge();
    let said = 0;
    const hear = (noise: Noise): void => {
      judge.push(made.next(noise, { zeroSeconds: 0.1 }), false);
      for (let i = 0; i < 60; i++) if (judge.push(made.next(noise), false)) said++;
    };
    hear(NOISES.close);
    hear(NOISES.room);
    expect(said).toBe(1);
    hear(NOISES.other);
    expect(said).toBe(2);
  });
});

describe('the same input', () => {
  it('an hour of playing with gains turned, phantom, talk, hum, a fan, hiss and dropouts: no false stop, in two sessions', () => {
    const stops: string[] = [];
    for (let seed = 1; seed <= 2; seed++) {
      const judge = new InputJudge();
      let at = 0;
      for (const noise of hourAtTheKit(seed)) {
        at++;
        if (judge.push(noise, false)) stops.push(`session ${seed}, ${(at * WINDOW_SECONDS).toFixed(0)} s`);
      }
    }
    expect(stops).toEqual([]);
  });

  it.each([3, 6, 12, 20, -3, -6, -12, -20])('the gain of one turned by %d dB, at once or at a break', (by) => {
    const turned = { one: NOISES.room.one, two: NOISES.room.two.map((db) => db + by) };
    expect(noticed(NOISES.room, turned)).toBe(null);
    expect(noticed(NOISES.room, turned, {}, 0.02)).toBe(null);
  });

  it('both gains turned by a linked preamp', () => {
    const turned = { one: NOISES.room.one.map((db) => db + 12), two: NOISES.room.two.map((db) => db + 12) };
    expect(noticed(NOISES.room, turned)).toBe(null);
    expect(noticed(NOISES.room, turned, {}, 0.02)).toBe(null);
  });

  it('a noise in the room that begins or ends at once', () => {
    const hissing = { added: [-80, -82, -84, -86, -88, -90] };
    expect(noticed(NOISES.close, NOISES.close, { doingBefore: () => ({}), doing: () => hissing })).toBe(null);
    expect(noticed(NOISES.close, NOISES.close, { doingBefore: () => hissing, doing: () => ({}) })).toBe(null);
  });

  it('A and B swapped in the meter', () => {
    const made = new NoiseWindows(6);
    const judge = new InputJudge();
    const swap = (n: InputNoise): InputNoise => ({ ...n, a: n.b, b: n.a, floorA: n.floorB, floorB: n.floorA });
    for (let i = 0; i < 60; i++) expect(judge.push(made.next(NOISES.room), false)).toBe(false);
    for (let i = 0; i < 60; i++) expect(judge.push(swap(made.next(NOISES.room)), true)).toBe(false);
  });

  it('digital silence, and nothing at all', () => {
    const judge = new InputJudge();
    const zero = new Array<number>(6).fill(0);
    for (let i = 0; i < 100; i++) {
      const noise = { windows: i, zeroSeconds: i % 2, a: zero, b: zero, product: zero, floorA: zero, floorB: zero };
      expect(judge.push(noise, false)).toBe(false);
    }
  });
});
