/** Spectra of hits made by hand, so that the coherency of every stretch of them is known: no audio, no transform. */
import { Pool } from '../../../src/dsp/delay/pool';
import { OCTAVE_BANDS, octaveLowHz } from '../../../src/dsp/signal/octaves';
import { DrumSum } from '../../../src/dsp/sum/drumSum';
import { TUNING } from '../../../src/dsp/tuning';
import { BAND_COUNT, BANDS, SPECTRUM_POINTS, spectrumHz } from '../../../src/reading/bands';
import { addHit, hitStore, RATE } from './rules';

export const SUM_LIMITS = { hitsNeeded: TUNING.sum.hitsNeeded, octaves: OCTAVE_BANDS };

/** Where nothing else is told, B is A turned by no angle, at one level over all bands, over no noise. */
export interface MadeSum {
  /** energies over the whole band */
  energyA?: number;
  energyB?: number;
  /** angle of γ, degrees, at a frequency; |γ| of one hit is 1 */
  angle?: number | ((hz: number) => number);
  /** dB of each octave re the hit's energy, from 31.5 Hz on */
  octavesA?: readonly number[];
  octavesB?: readonly number[];
  /** dB of the noise before, re the hit's energy, for all octaves or one by one */
  noiseA?: number | readonly number[];
  noiseB?: number | readonly number[];
  /** zero-lag correlation of the whole band, and of the highest fixed band where it isn't cos(angle) */
  correlation?: number;
  attack?: number;
  /** false: not worked out yet */
  hasSum?: boolean;
}

const power = (dB: number): number => 10 ** (dB / 10);
const at = (x: number | readonly number[], k: number): number => (typeof x === 'number' ? x : x[k]);

export function sumOf(hits: readonly MadeSum[]): DrumSum {
  const store = hitStore();
  const pool = new Pool(RATE);
  for (const hit of hits) {
    const { energyA: ea = 1, energyB: eb = 1, angle = 0, octavesA, octavesB, noiseA = -200, noiseB = -200 } = hit;
    const s = addHit(store);
    const both = Math.sqrt(ea * eb);
    const turn = (hz: number): number => ((typeof angle === 'number' ? angle : angle(hz)) * Math.PI) / 180;
    const middle = (lowHz: number, highHz: number): number => Math.sqrt(lowHz * highHz);
    store.energyA[s] = ea;
    store.energyB[s] = eb;
    store.product[s] = both * (hit.correlation ?? Math.cos(turn(1000)));
    store.hasSum[s] = hit.hasSum === false ? 0 : 1;
    for (const [b, { name, lowHz, highHz }] of BANDS.entries()) {
      const i = s * BAND_COUNT + b;
      store.bandA[i] = ea;
      store.bandB[i] = eb;
      const r = Math.cos(turn(middle(lowHz, highHz)));
      store.bandProduct[i] = both * (name === 'attack' ? (hit.attack ?? r) : r);
    }
    for (let k = 0; k < OCTAVE_BANDS; k++) {
      const i = s * OCTAVE_BANDS + k;
      const a = ea * power(octavesA?.[k] ?? 0);
      const b = eb * power(octavesB?.[k] ?? 0);
      store.octaveA[i] = a;
      store.octaveB[i] = b;
      store.octaveProduct[i] = Math.sqrt(a * b) * Math.cos(turn(octaveLowHz(k) * Math.SQRT2));
      store.noiseA[i] = ea * power(at(noiseA, k));
      store.noiseB[i] = eb * power(at(noiseB, k));
    }
    for (let p = 0; p < SPECTRUM_POINTS; p++) {
      const i = s * SPECTRUM_POINTS + p;
      store.gridA[i] = ea;
      store.gridB[i] = eb;
      store.gridRe[i] = both * Math.cos(turn(spectrumHz(p)));
      store.gridIm[i] = both * Math.sin(turn(spectrumHz(p)));
    }
    pool.drumSlots[pool.drumHits++] = s;
  }
  const sum = new DrumSum();
  sum.evaluate(store, pool);
  return sum;
}

export const sums = (n: number, hit: MadeSum = {}): MadeSum[] => Array.from({ length: n }, () => hit);

/** angle whose cosine is Re γ, degrees */
export const angleOf = (re: number): number => (Math.acos(re) * 180) / Math.PI;
