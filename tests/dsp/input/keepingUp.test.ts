/** The stream against the clock, on simulated schedules: blocks come in bunches and late, the clock knows whole milliseconds. */
import { describe, expect, it } from 'vitest';
import { KeepingUp } from '../../../src/dsp/input/keepingUp';
import { seeded } from '../../support/sound/signals';

interface Schedule {
  sampleRate: number;
  /** frames of a callback; its quanta are processed one right after the other */
  callback: number;
  quantum?: number;
  seconds: number;
  /** ms by which a callback comes late, at most, by chance */
  jitterMs?: number;
  /** rate of the stream's clock against the computer's */
  ppm?: number;
  /** ms that the clock counts in one */
  clockMs?: number;
  /** ms lost by then */
  lostMs?(seconds: number): number;
  /** ms that the computer's clock was set by, by then */
  setMs?(seconds: number): number;
  captured?: boolean;
  seed?: number;
  /** the clock is looked at so seldom, as the worklet does at high rates */
  lookFrames?: number;
}

interface Told {
  losses: { atSeconds: number; streamSeconds: number; agoSeconds: number }[];
  /** seconds at which the state began and ended, by turns */
  states: number[];
}

function run(schedule: Schedule): Told {
  const {
    sampleRate,
    callback,
    quantum = 128,
    seconds,
    jitterMs = 0,
    ppm = 0,
    clockMs = 1,
    seed = 1,
    lookFrames = 0,
  } = schedule;
  const random = seeded(seed);
  const keepingUp = new KeepingUp(sampleRate, { captured: schedule.captured ?? true });
  const told: Told = { losses: [], states: [] };
  let frame = 0;
  let freeMs = 0;
  let was = false;
  let since = 0;
  for (let i = 1; i * callback <= seconds * sampleRate; i++) {
    const streamMs = ((i * callback) / sampleRate) * 1000 * (1 + ppm * 1e-6);
    const dueMs = streamMs + (schedule.lostMs?.(streamMs / 1000) ?? 0);
    let ms = Math.max(freeMs, dueMs + random() * jitterMs);
    for (let at = 0; at < callback; at += quantum) {
      since += quantum;
      if (since < lookFrames && keepingUp.follows(frame, quantum)) {
        frame += quantum;
        ms += 0.05;
        continue;
      }
      since = 0;
      const nowMs = 1.7e12 + ms + (schedule.setMs?.(ms / 1000) ?? 0);
      keepingUp.nowMs[0] = Math.floor(nowMs / clockMs) * clockMs;
      const ago = keepingUp.block(frame, quantum);
      if (ago >= 0)
        told.losses.push({ atSeconds: ms / 1000, streamSeconds: frame / sampleRate, agoSeconds: ago / sampleRate });
      if (keepingUp.dropping !== was) told.states.push(ms / 1000);
      was = keepingUp.dropping;
      frame += quantum;
      ms += 0.05;
    }
    freeMs = ms;
  }
  return told;
}

const HOUR = 3600;
const once =
  (atSeconds: number, ms: number) =>
  (seconds: number): number =>
    seconds >= atSeconds ? ms : 0;

describe('nothing is lost', () => {
  it.each([
    [512, 1, 200],
    [1024, 5, -200],
    [2048, 30, 200],
    [512, 30, 0],
  ])('callbacks of %d frames, up to %d ms late, %d ppm: no word in two hours', (callback, jitterMs, ppm) => {
    for (const sampleRate of [44100, 48000])
      expect(run({ sampleRate, callback, jitterMs, ppm, seconds: 2 * HOUR })).toEqual({ losses: [], states: [] });
  });

  it('blocks of another length, and a clock that knows sixtieths, or tenths, of a second: that costs a few hits an hour', () => {
    for (const clockMs of [1000 / 60, 100]) {
      const schedule = { sampleRate: 48000, callback: 960, quantum: 96, jitterMs: 5, seconds: HOUR, clockMs };
      const { losses, states } = run(schedule);
      expect(losses.length).toBeLessThanOrEqual(4);
      expect(states).toEqual([]);
    }
  });

  it('callbacks that are late for half a second, and made up for', () => {
    const late = (seconds: number): number => (seconds % 10 < 0.5 ? 60 : 0);
    const schedule = { sampleRate: 48000, callback: 512, jitterMs: 2, seconds: 600, lostMs: late };
    expect(run(schedule)).toEqual({ losses: [], states: [] });
  });

  it('a clock that is set costs a hit, and no more', () => {
    for (const byMs of [3_600_000, 40, -40, -3_600_000]) {
      const { losses, states } = run({ sampleRate: 48000, callback: 512, seconds: 60, setMs: once(30, byMs) });
      expect(losses.length).toBeLessThanOrEqual(1);
      expect(states).toEqual([]);
    }
  });
});

describe('a loss', () => {
  const rows = [44100, 48000].flatMap((sampleRate) => [
    [sampleRate, 128, 0.5, (128 / sampleRate) * 1000],
    [sampleRate, 512, 1, 5],
    [sampleRate, 1024, 1, 10],
    [sampleRate, 2048, 5, 20],
    [sampleRate, 2048, 30, 100],
    [sampleRate, 512, 1, 500],
  ]);
  it.each(rows)(
    'at %d Hz, %d frames a callback, %d ms late, of %d ms is noticed once, and its place is in what is told',
    (...row) => {
      const [sampleRate, callback, jitterMs, lossMs] = row as [number, number, number, number];
      for (let n = 0; n < 5; n++) {
        const atSeconds = 30 + n * 0.137;
        const lostMs = once(atSeconds, lossMs);
        const { losses, states } = run({ sampleRate, callback, jitterMs, seconds: 45, lostMs, ppm: 100, seed: n + 1 });
        expect(losses.length, `${n}`).toBeGreaterThanOrEqual(1);
        expect(losses.length, `${n}`).toBeLessThanOrEqual(2);
        const [first] = losses as [Told['losses'][0]];
        expect(first.atSeconds - atSeconds).toBeLessThan(1.5 + lossMs / 1000);
        expect(first.streamSeconds - first.agoSeconds).toBeLessThan(atSeconds);
        expect(first.agoSeconds).toBeLessThan(1.6);
        expect(states).toEqual([]);
      }
    },
  );

  it('is noticed as well where the clock is looked at for every other block, at 96 kHz', () => {
    const at = { sampleRate: 96_000, callback: 1024, jitterMs: 3, seconds: 120, lookFrames: 240 };
    expect(run(at)).toEqual({ losses: [], states: [] });
    const { losses } = run({ ...at, lostMs: once(40, 12) });
    expect(losses).toHaveLength(1);
    expect((losses[0] as Told['losses'][0]).atSeconds).toBeLessThan(42);
    const keepingUp = new KeepingUp(96_000, { captured: true });
    keepingUp.block(0, 128);
    expect(keepingUp.follows(128, 128)).toBe(true);
    // one that is missing needs a look
    expect(keepingUp.follows(384, 128)).toBe(false);
  });

  it('by the stream’s own number is noticed at once', () => {
    const keepingUp = new KeepingUp(48000, { captured: true });
    let frame = 0;
    const block = (ms: number): number => {
      keepingUp.nowMs[0] = ms;
      const ago = keepingUp.block(frame, 128);
      frame += 128;
      return ago;
    };
    for (let ms = 0; ms < 3000; ms += 128 / 48) expect(block(ms)).toBe(-1);
    frame += 128;
    expect(block(3003)).toBe(0);
    expect(block(3006)).toBe(-1);
  });
});

describe('a thread that doesn’t keep up', () => {
  /** ms behind, where a quantum takes so much longer than it lasts between 20 and 30 s of the clock */
  const slow = (share: number) => (streamSeconds: number) => {
    const slowSeconds = 10 * share;
    return Math.min(Math.max(0, streamSeconds - 20), slowSeconds) * 1000 * (1 / share - 1);
  };

  it.each([0.24, 0.48, 0.9, 0.97])('at %d of the time: told within two seconds, over some seconds after', (share) => {
    for (const jitterMs of [1, 10]) {
      const { states } = run({ sampleRate: 44100, callback: 128, jitterMs, seconds: 40, lostMs: slow(share) });
      expect(states.length).toBe(2);
      const [from, to] = states as [number, number];
      expect(from - 20).toBeGreaterThan(0);
      expect(from - 20).toBeLessThan(share > 0.95 && jitterMs > 1 ? 5 : 2);
      expect(to - 30).toBeGreaterThan(3);
      expect(to - 30).toBeLessThan(6.5);
    }
  });

  it('a block now and again, three within four seconds: told as well; three within a minute aren’t', () => {
    const every = (gapSeconds: number) => (seconds: number) =>
      10 * Math.min(3, Math.max(0, Math.ceil((seconds - 20) / gapSeconds)));
    const schedule = { sampleRate: 48000, callback: 512, jitterMs: 1, seconds: 80 };
    expect(run({ ...schedule, lostMs: every(1) }).states.length).toBe(2);
    const { losses, states } = run({ ...schedule, lostMs: every(18) });
    expect([losses.length, states.length]).toEqual([3, 0]);
  });

  it.each([
    ['a block of 50', 50, 1, true],
    ['ten of each 200', 200, 10, true],
    ['one every minute', 22_500, 1, false],
  ])('%s missing by the stream’s own number: told within five seconds while it goes on', (_, every, missing, told) => {
    const keepingUp = new KeepingUp(48000, { captured: true });
    const states: number[] = [];
    let was = false;
    for (let i = 1; i <= 24_000; i++) {
      // 20 s of the 64 are spoilt
      const isSpoilt = told ? i > 7500 && i <= 15_000 : i > 7500;
      if (isSpoilt && i % every < missing) continue;
      const ms = (i * 128) / 48;
      keepingUp.nowMs[0] = ms;
      keepingUp.block(i * 128, 128);
      if (keepingUp.dropping !== was) states.push(ms / 1000);
      was = keepingUp.dropping;
    }
    if (!told) return expect(states).toEqual([]);
    expect(states.length).toBe(2);
    const [from, to] = states as [number, number];
    expect(from).toBeGreaterThan(20);
    expect(from).toBeLessThan(25);
    expect(to).toBeGreaterThan(43);
    expect(to).toBeLessThan(47);
  });

  it('of a file nothing is lost: told only where it falls far behind', () => {
    const schedule = { sampleRate: 44100, callback: 128, jitterMs: 1, seconds: 40, captured: false };
    expect(run({ ...schedule, lostMs: slow(0.85) }).states).toEqual([]);
    expect(run({ ...schedule, lostMs: slow(0.48) }).states.length).toBe(2);
  });
});
