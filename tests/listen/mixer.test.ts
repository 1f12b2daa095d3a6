/** Live sound that is muted, whatever version is heard. The path as it is rendered stands in tests/browser/listen/path.test.ts. */
import { expect, test } from 'vitest';
import { Mixer } from '../../src/listen/mixer';
import { mixOf } from '../../src/listen/version';
import { NOW } from '../../src/state/listen/versions';

const RATE = 48_000;

/** Second at which it mutes; null: never. */
function mutedAt(sounds: (t: number) => [a: number, b: number], trimBDb: number): number | null {
  const mixer = new Mixer(RATE, true);
  mixer.choose(mixOf({ ...NOW, trimBDb }, 'both', 1, 1));
  mixer.setLevel(1);
  mixer.play(true);
  const [a, b, left, right] = [0, 1, 2, 3].map(() => new Float32Array(128)) as [
    Float32Array,
    Float32Array,
    Float32Array,
    Float32Array,
  ];
  for (let at = 0; at < 2 * RATE; at += 128) {
    for (let i = 0; i < 128; i++) [a[i], b[i]] = sounds((at + i) / RATE);
    mixer.process(a, b, left, right);
    if (mixer.muted) return (at + 128) / RATE;
  }
  return null;
}

test('what stands near full scale at an input is muted, however far the version turns that mic down', () => {
  const tone = (t: number, peak: number): number => peak * Math.sin(2 * Math.PI * 900 * t);
  for (const trimBDb of [0, -6, -20]) {
    expect(
      mutedAt((t) => [0, tone(t, 1)], trimBDb),
      `B at ${trimBDb} dB`,
    ).toBeLessThan(0.5);
    expect(mutedAt((t) => [0, tone(t, 0.5)], trimBDb)).toBeNull();
  }
});
