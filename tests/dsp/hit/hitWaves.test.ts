import { describe, expect, it } from 'vitest';
import { STORED_HITS } from '../../../src/dsp/hit/hitStore';
import { HitWaves } from '../../../src/dsp/hit/hitWaves';
import { Ring } from '../../../src/dsp/signal/ring';

describe('the kept waveforms of the hits', () => {
  const rate = 8000;
  const ramp = (gain: number): Ring => {
    const ring = new Ring(rate);
    ring.push(
      Float64Array.from({ length: rate }, (_, i) => gain * i),
      rate,
    );
    return ring;
  };

  it('hold each channel from 16 ms before the trigger to the reach and 6 ms after it', () => {
    const waves = new HitWaves(rate, 10, ramp(1), ramp(-2));
    expect(waves.before).toBe(128);
    expect(waves.length).toBe(128 + 128);
    waves.keep(3, 4000);
    const at = 3 * waves.length;
    expect(waves.from[3]).toBe(4000 - 128);
    expect(waves.a[at + waves.before]).toBe(4000);
    expect(waves.b[at]).toBe(-2 * (4000 - 128));
    expect(waves.a[at + waves.length - 1]).toBe(4000 + 127);
    expect(waves.a[at + waves.length]).toBe(0);
  });

  it('say so where nothing is kept', () => {
    const waves = new HitWaves(rate, 10, ramp(1), ramp(1));
    expect(waves.from.length).toBe(STORED_HITS);
    waves.keep(0, 2000);
    waves.keep(1, 2000);
    waves.forget(0);
    expect(waves.from[0]).toBeNaN();
    expect(waves.from[1]).toBe(2000 - waves.before);
  });
});
