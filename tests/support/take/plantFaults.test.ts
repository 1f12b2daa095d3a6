/** Faults planted in a simulated take: each does to its track, and to what is true of it, what its name says, and to no other. */
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { TUNING_SEEDS } from '../../cases/case';
import { type Planted, plantFaults, type TakeSound } from './plantFaults';
import { renderTake } from './renderTake';
import { drawTake, type SimulatedTake } from './simulatedKit';
import { truthOfTake } from './simulatedTruth';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 120_000 });

const HIGH = '05 High Tom.wav';
const LEFT = '10 Overhead Left.wav';
const peakOf = (x: Float32Array): number => x.reduce((most, v) => Math.max(most, Math.abs(v)), 0);

describe('a planted fault', () => {
  let made: SimulatedTake;
  let sound: TakeSound;
  const at = (file: string): number => sound.truth.files.indexOf(file);
  const plant = (fault: Planted): TakeSound => plantFaults(made, sound, [fault]);
  const changed = ({ tracks }: TakeSound): number[] => tracks.flatMap((x, t) => (x === sound.tracks[t] ? [] : [t]));

  beforeAll(() => {
    made = { ...drawTake(TUNING_SEEDS.from, { hits: 1 }), seconds: 2 };
    sound = { tracks: renderTake(made), truth: truthOfTake(made) };
  });

  it('inverted: the other sign, and the first push the other way', () => {
    const spoilt = plant({ kind: 'inverted', file: HIGH });
    expect(changed(spoilt)).toEqual([at(HIGH)]);
    const [x, y] = [sound, spoilt].map(({ tracks }) => tracks[at(HIGH)]);
    expect(x.every((v, i) => y[i] === -v)).toBe(true);
    sound.truth.drums.forEach(({ signs }, d) => {
      expect(spoilt.truth.drums[d].signs).toEqual(signs.map((sign, t) => (t === at(HIGH) ? -sign : sign)));
    });
  });

  it('late: by that many samples, fractions too, in sound and in truth', () => {
    const spoilt = plant({ kind: 'late', file: LEFT, ms: 1.2 });
    expect(changed(spoilt)).toEqual([at(LEFT)]);
    const [x, y] = [sound, spoilt].map(({ tracks }) => tracks[at(LEFT)]);
    // 57.6 samples: a tone of 480 Hz turns by 2π·480·0.0012 = 207.36°
    const phase = (z: Float32Array): number => {
      let re = 0;
      let im = 0;
      for (let i = 0; i < z.length; i++) {
        re += z[i] * Math.cos((2 * Math.PI * 480 * i) / 48000);
        im -= z[i] * Math.sin((2 * Math.PI * 480 * i) / 48000);
      }
      return (Math.atan2(im, re) * 180) / Math.PI;
    };
    expect((phase(x) - phase(y) + 720) % 360).toBeCloseTo(207.36, 0);
    const [before, after] = [sound, spoilt].map(({ truth }) => truth.drums[1].arrivalSamples[at(LEFT)]);
    expect(after - before).toBeCloseTo(57.6, 9);
  });

  it('dead: noise far below the sound, or nothing at all, and no drum arrives', () => {
    for (const noise of [true, false]) {
      const spoilt = plant({ kind: 'dead', file: HIGH, noise });
      const peak = peakOf(spoilt.tracks[at(HIGH)]);
      if (noise) {
        expect(peak).toBeGreaterThan(0);
        expect(peak).toBeLessThan(0.01 * peakOf(sound.tracks[at(HIGH)]));
      } else expect(peak).toBe(0);
      for (const { arrivalSamples } of spoilt.truth.drums) expect(arrivalSamples[at(HIGH)]).toBeNaN();
    }
  });

  it('swapped: two names for each other’s signals', () => {
    const spoilt = plant({ kind: 'swapped', files: [HIGH, LEFT] });
    expect(spoilt.tracks[at(HIGH)]).toBe(sound.tracks[at(LEFT)]);
    expect(spoilt.tracks[at(LEFT)]).toBe(sound.tracks[at(HIGH)]);
    expect(spoilt.truth.files).toEqual(sound.truth.files);
    expect(spoilt.truth.drums[2].arrivalSamples[at(LEFT)]).toBe(sound.truth.drums[2].arrivalSamples[at(HIGH)]);
  });

  it('clipped: runs at full scale, nothing above it', () => {
    const [x] = [plant({ kind: 'clipped', file: HIGH, overDb: 6 }).tracks[at(HIGH)]];
    expect(peakOf(x)).toBe(1);
    let longest = 0;
    let run = 0;
    for (const v of x) {
      run = Math.abs(v) === 1 ? run + 1 : 0;
      longest = Math.max(longest, run);
    }
    expect(longest).toBeGreaterThanOrEqual(3);
  });

  it('copied: one signal in two tracks, with another gain', () => {
    const spoilt = plant({ kind: 'copied', file: LEFT, of: HIGH, gain: -0.5 });
    const [x, y] = [HIGH, LEFT].map((file) => spoilt.tracks[at(file)]);
    expect(x.every((v, i) => y[i] === -0.5 * v)).toBe(true);
    for (const { signs } of spoilt.truth.drums) expect(signs[at(LEFT)]).toBe(-signs[at(HIGH)]);
  });

  it('in a track that there isn’t is refused', () => {
    expect(() => plant({ kind: 'inverted', file: '99 Gong.wav' })).toThrow(RangeError);
  });
});
