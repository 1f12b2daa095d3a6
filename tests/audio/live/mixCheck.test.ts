import { describe, expect, it } from 'vitest';
import { MixCheck } from '../../../src/audio/live/mixCheck';
import { Engine } from '../../../src/dsp/engine';
import { seeded } from '../../support/sound/signals';

const RATE = 48_000;

/** Speech-like noise in syllables, and the room's. */
function voice(seconds: number, seed: number, level = 0.1): Float32Array {
  const random = seeded(seed);
  return Float32Array.from({ length: seconds * RATE }, (_, i) => {
    const syllable = Math.max(0, Math.sin((2 * Math.PI * 3 * i) / RATE));
    return (random() - 0.5) * (level * syllable + 1e-4);
  });
}
const scaled = (x: Float32Array, gain: number): Float32Array => x.map((v) => v * gain);
const plus = (x: Float32Array, y: Float32Array): Float32Array => x.map((v, i) => v + (y[i] as number));
/** as a 16-bit stream carries it */
const in16Bits = (x: Float32Array): Float32Array => x.map((v) => Math.round(v * 32_768) / 32_768);

/** @returns s until the mix is told; null: never */
function told(a: Float32Array, b: Float32Array, settingOffset = false): number | null {
  const engine = new Engine(RATE, settingOffset ? { settingOffset, maxLagMs: 30 } : {});
  const check = new MixCheck();
  for (let at = 0; at + 1200 <= a.length; at += 1200) {
    engine.push(a.subarray(at, at + 1200), b.subarray(at, at + 1200));
    if (check.push(engine.reading())) return at / RATE;
  }
  return null;
}

describe('a mix of the same channels', () => {
  const both = plus(voice(6, 1), voice(6, 2));

  it('is told within 3 s of speech, whatever the two gains and signs, in 16 bits too', () => {
    expect(told(both, scaled(both, 0.5))).toBeLessThan(3);
    expect(told(both, scaled(both, -0.8))).toBeLessThan(3);
    expect(told(in16Bits(both), in16Bits(scaled(both, 0.7)))).toBeLessThan(3);
  });

  it('is none where each has something of its own, however little', () => {
    expect(told(both, plus(scaled(both, 0.7), voice(6, 3, 0.004)))).toBe(null);
    // the second of four is in B alone
    expect(told(both, plus(both, voice(6, 4, 0.01)))).toBe(null);
  });

  it('two capsules side by side are none: 3 mm apart, with preamps of their own', () => {
    const late = new Float32Array(both.length);
    // 3 mm are 0.42 samples: two of them, weighted, are a delay by that much
    for (let i = 1; i < both.length; i++) late[i] = 0.58 * (both[i] as number) + 0.42 * (both[i - 1] as number);
    expect(told(both, late)).toBe(null);
    expect(told(plus(both, voice(6, 5, 0.003)), plus(both, voice(6, 6, 0.003)))).toBe(null);
  });

  it('isn’t looked for in silence, in one signal twice, or while the input offset is measured', () => {
    expect(told(scaled(both, 1e-4), scaled(both, 5e-5))).toBe(null);
    expect(told(both, both)).toBe(null);
    expect(told(both, scaled(both, 0.5), true)).toBe(null);
  });
});
