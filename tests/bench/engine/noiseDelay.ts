/** Draws of band-limited noise with an exact fractional delay, and the scatter of the delay function over them. */
import FFT from 'fft.js';
import { Gauss } from '../../support/sound/gauss';
import { delayBoundSeconds, StretchDelay } from '../../support/sound/stretchDelay';

const SAMPLE_RATE = 48000;
const LOW_HZ = 100;
const HIGH_HZ = 4000;
const SECONDS = 0.1;
const SIZE = 8192;
const START = 1500;

export interface BoundRow {
  snrDb: number;
  delaySamples: number;
  draws: number;
  rmsMicroseconds: number;
  biasMicroseconds: number;
  boundMicroseconds: number;
  ratio: number;
}

/** A block of noise that is periodic over SIZE samples and lies within the band: spectrum in `re`, `im`. */
function drawSpectrum(gauss: Gauss, amplitude: number, spectrum: Float64Array): void {
  const low = Math.ceil((LOW_HZ * SIZE) / SAMPLE_RATE);
  const high = Math.floor((HIGH_HZ * SIZE) / SAMPLE_RATE);
  spectrum.fill(0);
  for (let k = low; k <= high; k++) {
    spectrum[2 * k] = amplitude * gauss.next();
    spectrum[2 * k + 1] = amplitude * gauss.next();
  }
}

/** Real part of the inverse transform, the spectrum delayed by `delaySamples`. */
function synthesise(fft: FFT, spectrum: Float64Array, delaySamples: number, out: Float64Array): void {
  const z = new Float64Array(2 * SIZE);
  const y = new Float64Array(2 * SIZE);
  for (let k = 1; k < SIZE / 2; k++) {
    const re = spectrum[2 * k] as number;
    const im = spectrum[2 * k + 1] as number;
    if (re === 0 && im === 0) continue;
    const w = (-2 * Math.PI * k * delaySamples) / SIZE;
    z[2 * k] = re * Math.cos(w) - im * Math.sin(w);
    z[2 * k + 1] = re * Math.sin(w) + im * Math.cos(w);
  }
  fft.inverseTransform(y, z);
  for (let i = 0; i < SIZE; i++) out[i] = y[2 * i] as number;
}

/** RMS error of the delay function over seeded draws, beside the bound. */
export function scatterOfDelay(snrDb: number, delaySamples: number, draws: number, seed: number): BoundRow {
  const fft = new FFT(SIZE);
  const gauss = new Gauss(seed);
  const estimator = new StretchDelay(Math.round(SECONDS * SAMPLE_RATE), {
    sampleRate: SAMPLE_RATE,
    lowHz: LOW_HZ,
    highHz: HIGH_HZ,
    beta: 0,
    maxLagSamples: 100,
  });
  const snr = 10 ** (snrDb / 10);
  const source = new Float64Array(2 * SIZE);
  const noise = new Float64Array(2 * SIZE);
  const a = new Float64Array(SIZE);
  const b = new Float64Array(SIZE);
  const n = new Float64Array(SIZE);
  let sum = 0;
  let squares = 0;
  for (let d = 0; d < draws; d++) {
    drawSpectrum(gauss, 1, source);
    synthesise(fft, source, 0, a);
    synthesise(fft, source, delaySamples, b);
    for (const x of [a, b]) {
      drawSpectrum(gauss, 1 / Math.sqrt(snr), noise);
      synthesise(fft, noise, 0, n);
      for (let i = 0; i < SIZE; i++) x[i] = (x[i] as number) + (n[i] as number);
    }
    const error = (estimator.estimate(a, b, START).delaySamples - delaySamples) / SAMPLE_RATE;
    sum += error;
    squares += error * error;
  }
  const coherence = (snr / (1 + snr)) ** 2;
  const bound = delayBoundSeconds(LOW_HZ, HIGH_HZ, SECONDS, coherence);
  const rms = Math.sqrt(squares / draws);
  return {
    snrDb,
    delaySamples,
    draws,
    rmsMicroseconds: rms * 1e6,
    biasMicroseconds: (sum / draws) * 1e6,
    boundMicroseconds: bound * 1e6,
    ratio: rms / bound,
  };
}
