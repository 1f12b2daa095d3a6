/** The newest seconds of an interface. */
import { expect, test } from 'vitest';
import { RECENT_SECONDS, Recent, recentBytes, recentFrames } from '../../src/listen/recent';

const RATE = 1000;

/** Blocks of counted samples, so that each tells its place; B is their negative. */
function pushed(frames: number): Recent {
  const recent = new Recent(new SharedArrayBuffer(recentBytes(RATE)), RATE);
  for (let at = 0; at < frames; at += 128) {
    const a = Float32Array.from({ length: 128 }, (_, i) => at + i);
    recent.push(
      a,
      a.map((x) => -x),
    );
  }
  return recent;
}

test('less than all of it is told from the beginning, more than that only the newest', () => {
  const little = pushed(1280).newest();
  expect([little.a.length, little.a[0], little.a.at(-1)]).toEqual([1280, 0, 1279]);
  const long = pushed(128 * 100).newest();
  expect(long.a.at(-1)).toBe(12_799);
  expect(long.b.at(-1)).toBe(-12_799);
  expect(long.a.length).toBe(recentFrames(RATE) - 100);
  for (let i = 1; i < long.a.length; i++) expect((long.a[i] as number) - (long.a[i - 1] as number)).toBe(1);
  expect(RECENT_SECONDS).toBe(8);
});

test('what is no number is silence, and memory of another size is refused', () => {
  const recent = new Recent(new SharedArrayBuffer(recentBytes(RATE)), RATE);
  recent.push(Float32Array.of(1, Number.NaN), Float32Array.of(Number.POSITIVE_INFINITY, 1));
  expect(recent.newest()).toEqual({ a: Float32Array.of(1, 0), b: Float32Array.of(0, 1) });
  expect(() => new Recent(new SharedArrayBuffer(16), RATE)).toThrow('must have length 64008 but had length 16');
});
