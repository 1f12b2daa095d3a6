/** A howl mutes, hits don't. The sounds are made here; howls grow by a fixed factor, which is what a loop with a gain over one does. */
import { expect, test } from 'vitest';
import { Runaway } from '../../src/listen/runaway';

const RATE = 48_000;

/** Second at which it trips; null: never. */
function tripOf(sound: (t: number) => number, seconds: number): number | null {
  const watch = new Runaway(RATE);
  const block = new Float64Array(128);
  for (let at = 0; at < seconds * RATE; at += 128) {
    for (let i = 0; i < 128; i++) block[i] = sound((at + i) / RATE);
    if (watch.push(block, block, 128)) return (at + 128) / RATE;
  }
  return null;
}

const db = (x: number): number => 10 ** (x / 20);
/** grows from −53 dBFS (−50 of a sine's RMS on its way up) and stops at what the converters can do */
const howl = (dbPerSecond: number, hz: number) => (t: number) =>
  Math.min(1, db(-53 + dbPerSecond * t)) * Math.sin(2 * Math.PI * hz * t);

test.each([30, 45, 60, 100, 200, 300, 500, 1000, 3000])(
  'a howl that grows by %i dB/s is stopped within 0.5 s of −50 dBFS',
  (rate) => {
    for (const hz of [95, 250, 1800, 3200]) {
      const trip = tripOf(howl(rate, hz), 2);
      expect(trip, `${hz} Hz`).not.toBeNull();
      // −53 dBFS peak is −56 RMS: so long until it is −50
      expect((trip as number) - 6 / rate, `${hz} Hz`).toBeLessThanOrEqual(0.5);
    }
  },
);

test('a slow howl, 13 dB/s, is stopped within little more than a second, and so is one under the noise of the room', () => {
  expect(tripOf(howl(13, 400), 4)).toBeLessThan(6 / 13 + 1.05);
  let seed = 1;
  const noise = (): number => {
    seed = (seed * 16_807) % 2_147_483_647;
    return (seed / 1_073_741_823 - 1) * db(-46);
  };
  expect(tripOf((t) => noise() + howl(60, 400)(t), 3)).not.toBeNull();
});

/** One hit: at once there, then it rings; `beat` is two modes against each other. */
function hit(t: number, hz: number, seconds: number, peak: number, beat = 0): number {
  if (t < 0) return 0;
  const ring = Math.exp((-6.9 * t) / seconds);
  return (
    peak * Math.min(1, t / 0.001) * ring * Math.sin(2 * Math.PI * hz * t) * (1 + beat * Math.cos(2 * Math.PI * 4 * t))
  );
}

test.each([
  ['snare', 190, 0.4, 0, 1.6],
  ['kick', 58, 0.7, 0, 1.6],
  ['floor tom with a long ring', 82, 2.5, 0, 0.5],
  ['tom whose modes beat', 110, 2, 0.6, 0.5],
  // wash upon wash: louder it would stand at the ceiling, and be muted for that
  ['crash', 3100, 4, 0.3, 0.25],
] as const)('hits of a %s never trip, soft or hard', (_, hz, seconds, beat, most) => {
  for (const peak of [0.01, 0.1, 0.25, 0.5, 1, 1.6].filter((one) => one <= most)) {
    for (const beatsPerMinute of [60, 110, 180]) {
      const every = 60 / beatsPerMinute;
      const played = (t: number): number => {
        let sum = 0;
        for (let k = Math.max(0, Math.floor(t / every) - 8); k <= Math.floor(t / every); k++)
          sum += hit(t - k * every, hz, seconds, peak * (0.6 + 0.4 * Math.abs(Math.sin(3 * k))), beat);
        return sum;
      };
      expect(tripOf(played, 6), `peak ${peak}, ${beatsPerMinute} bpm`).toBeNull();
    }
  }
});

test('a roll that grows louder falls back between its strokes and doesn’t trip', () => {
  const roll = (t: number): number => {
    const k = Math.floor(t * 14);
    return hit(t - k / 14, 220, 0.25, db(-34 + 14 * t)) + hit(t - (k - 1) / 14, 220, 0.25, db(-34 + 14 * t));
  };
  expect(tripOf(roll, 2)).toBeNull();
});
