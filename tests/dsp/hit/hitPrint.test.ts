/** A hit's fingerprint from its own stretch: the same wherever in it the drum's stroke lies, so that a hi-hat before it doesn't make another drum of it. */
import { describe, expect, it } from 'vitest';
import { BANDS_A_CHANNEL, FINGERPRINT, HitPrint, NEAR_BANDS_FROM } from '../../../src/dsp/hit/fingerprint';
import { Ring } from '../../../src/dsp/signal/ring';

const TRIGGER = 4000;

/** A stroke that dies away in some ms, `lateMs` after the trigger, in A; in B the same at half the amplitude. */
function printOf(lateMs: number, sampleRate = 48000, hz = 1500): Float64Array {
  const waveA = new Ring(2 * sampleRate);
  const waveB = new Ring(2 * sampleRate);
  const from = TRIGGER + (lateMs / 1000) * sampleRate;
  for (let n = 0; n < TRIGGER + sampleRate / 10; n++) {
    const t = (n - from) / sampleRate;
    const x = t < 0 ? 0 : Math.sin(2 * Math.PI * hz * t) * Math.exp(-t / 0.003);
    waveA.push(Float64Array.of(x), 1);
    waveB.push(Float64Array.of(x / 2), 1);
  }
  const out = new Float64Array(FINGERPRINT + 1);
  new HitPrint(sampleRate, { waveA, waveB }).write(TRIGGER, out, 1);
  return out.subarray(1);
}

const inA = (print: Float64Array, band: number): number => print[band] as number;

describe('a hit’s fingerprint', () => {
  it('is as loud for a stroke 8 ms after the trigger as for one at it, within half a dB', () => {
    const atOnce = printOf(0);
    for (const lateMs of [2, 5, 8])
      expect(Math.abs(inA(printOf(lateMs), NEAR_BANDS_FROM) - inA(atOnce, NEAR_BANDS_FROM))).toBeLessThan(0.5);
  });

  it('has lost a stroke that begins behind its end', () => {
    expect(inA(printOf(27), NEAR_BANDS_FROM)).toBeLessThan(inA(printOf(0), NEAR_BANDS_FROM) - 60);
  });

  it('shows half the amplitude 6.02 dB lower', () => {
    const print = printOf(1);
    expect(inA(print, NEAR_BANDS_FROM) - inA(print, BANDS_A_CHANNEL + NEAR_BANDS_FROM)).toBeCloseTo(6.0206, 3);
  });

  it.each([44100, 96000])('puts a tone in its band at %i Hz', (sampleRate) => {
    const print = printOf(1, sampleRate, 700);
    const loudest = Array.from({ length: BANDS_A_CHANNEL }, (_, b) => b).sort((p, q) => inA(print, q) - inA(print, p));
    expect(loudest[0]).toBe(5);
  });

  it('is there 26 ms after the trigger', () => {
    const rings = { waveA: new Ring(16), waveB: new Ring(16) };
    expect(new HitPrint(48000, rings).lookAheadFrames).toBe(1248);
  });
});
