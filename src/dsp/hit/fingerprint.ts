/** How a hit's energy lies over bands of both channels: what tells one drum of a kit from another. */
import type FFT from 'fft.js';
import type { Rings } from '../input/inputs';
import { splitSpectra } from '../signal/gcc';
import { transformOf } from '../signal/transforms';
import { fadeWindow } from '../signal/windows';
import { type FingerprintTuning, HIT } from '../tuning/hitTuning';

export const BANDS_A_CHANNEL = HIT.fingerprint.edgesHz.length - 1;
/** bands below 500 Hz */
export const LOW_BANDS = 5;
/** bands from 1 kHz on: where a microphone hears the drum that it stands at, and of others hardly anything */
export const NEAR_BANDS_FROM = 6;
/** values of a fingerprint, dB: A's bands, then B's */
export const FINGERPRINT = 2 * BANDS_A_CHANNEL;
const FLOOR = 1e-20;

/** Spectra of both channels, bins 0…size/2. */
export interface Spectra {
  readonly aRe: Float64Array;
  readonly aIm: Float64Array;
  readonly bRe: Float64Array;
  readonly bIm: Float64Array;
}

export class Fingerprints {
  private readonly edges = new Int32Array(BANDS_A_CHANNEL + 1);

  /** @param size of the transform the spectra come from */
  constructor(sampleRate: number, size: number, tuning: FingerprintTuning = HIT.fingerprint) {
    tuning.edgesHz.forEach((hz, i) => {
      this.edges[i] = Math.max(1, Math.min(size / 2, Math.round((hz * size) / sampleRate)));
    });
  }

  /** Levels of the bands, dB, into out[at…]. Real-time safe: yes. */
  write(g: Spectra, out: Float64Array, at: number): void {
    for (let b = 0; b < BANDS_A_CHANNEL; b++) {
      let a = FLOOR;
      let bb = FLOOR;
      for (let k = this.edges[b] as number; k < (this.edges[b + 1] as number); k++) {
        a += (g.aRe[k] as number) ** 2 + (g.aIm[k] as number) ** 2;
        bb += (g.bRe[k] as number) ** 2 + (g.bIm[k] as number) ** 2;
      }
      out[at + b] = 10 * Math.log10(a);
      out[at + BANDS_A_CHANNEL + b] = 10 * Math.log10(bb);
    }
  }
}

/**
 * A hit's fingerprint from one stretch round its trigger, whatever the reach: long enough that it holds the drum's stroke also where a
 * hi-hat's, some milliseconds before, is what was triggered on.
 */
export class HitPrint {
  /** frames after the trigger that are looked at */
  readonly lookAheadFrames: number;
  private readonly before: number;
  private readonly window: Float64Array;
  private readonly fft: FFT;
  private readonly input: Float64Array;
  private readonly output: Float64Array;
  private readonly spectra: Spectra;
  private readonly prints: Fingerprints;
  private readonly size: number;

  constructor(
    sampleRate: number,
    private readonly rings: Pick<Rings, 'waveA' | 'waveB'>,
    tuning: FingerprintTuning = HIT.fingerprint,
  ) {
    this.before = Math.round(tuning.beforeSeconds * sampleRate);
    this.lookAheadFrames = Math.round(tuning.afterSeconds * sampleRate);
    const length = this.before + this.lookAheadFrames;
    this.window = fadeWindow(length, {
      fadeIn: Math.round(tuning.fadeInSeconds * sampleRate),
      fadeOut: Math.round(tuning.fadeOutSeconds * sampleRate),
      at: 0,
    });
    this.size = 2 ** Math.ceil(Math.log2(length));
    this.fft = transformOf(this.size);
    this.input = new Float64Array(2 * this.size);
    this.output = new Float64Array(2 * this.size);
    const bins = this.size / 2 + 1;
    this.spectra = {
      aRe: new Float64Array(bins),
      aIm: new Float64Array(bins),
      bRe: new Float64Array(bins),
      bIm: new Float64Array(bins),
    };
    this.prints = new Fingerprints(sampleRate, this.size, tuning);
    // the first calls cost ten times more: have them here, not while a drum is being hit
    const nowhere = new Float64Array(FINGERPRINT);
    for (let i = 0; i < 3; i++) this.write(0, nowhere, 0);
  }

  /** Levels of the hit's bands, dB, into out[at…]. One transform. Real-time safe: yes. @param trigger frame */
  write(trigger: number, out: Float64Array, at: number): void {
    const { rings, window, input, output, spectra, size } = this;
    const from = trigger - this.before;
    for (let i = 0; i < window.length; i++) {
      const w = window[i] as number;
      input[2 * i] = w * rings.waveA.at(from + i);
      input[2 * i + 1] = w * rings.waveB.at(from + i);
    }
    this.fft.transform(output, input);
    splitSpectra(output, size, spectra.aRe, spectra.aIm, spectra.bRe, spectra.bIm);
    this.prints.write(spectra, out, at);
  }
}
