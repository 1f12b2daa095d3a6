/**
 * The spectra of A and B over the stretch that a sum is made from, −5 ms to 0.2 s round a hit's arrival, or over the noise before
 * it. In small pieces: what has come in is taken in while the rest is still coming, and the transform is done in parts. Above
 * 64 kHz or so the stretch is taken at a half or a quarter of the rate: no sum is told above 20 kHz.
 */
import { Decimator } from '../signal/decimator';
import { splitSpectra } from '../signal/gcc';
import type { Ring } from '../signal/ring';
import { room64 } from '../signal/room';
import { PARTS, TransformInParts } from '../signal/transforms';
import { fadeWindow } from '../signal/windows';
import type { SpectraTuning } from '../tuning/hitTuning';
import type { HitBins } from './sumLags';

/** frames of the stream that a piece takes in, and where its rate is lowered, which takes longer */
const PIECE_FRAMES = 1024;
const LOWERED_FRAMES = 512;

/** What a piece of work has done; `waiting`: nothing, for more has to come in first. */
export type Piece = 'waiting' | 'part' | 'done';

export class Stretch {
  /** frames of the stream to one of a stretch, and the rate that is left */
  readonly factor: number;
  readonly rate: number;
  readonly size: number;
  /** frames of the stream after the arrival that a hit's stretch needs */
  readonly lookAheadFrames: number;
  /** power of a hit's window over that of the noise's */
  readonly noiseScale: number;
  /** bins 0…size/2, once it is done */
  readonly bins: HitBins;
  readonly transform: TransformInParts;
  /** frames of a stretch before the arrival, in all, and of the noise */
  private readonly before: number;
  private readonly length: number;
  private readonly noiseLength: number;
  private readonly window: Float64Array;
  private readonly noiseWindow: Float64Array;
  private readonly decimator: Decimator;
  /** frames of a stretch that a piece takes in; room for them at the stream's rate and at the lowered one */
  private readonly atOnce: number;
  private readonly frames: Float64Array;
  private readonly lowered: Float64Array;
  private readonly input: Float64Array;
  private readonly output: Float64Array;
  /** frames taken in, and pieces done since all were */
  private loaded = 0;
  private pieces = 0;

  /** @param maxLagSamples largest |lag| that the spectra will be asked for, samples of the stream */
  constructor(sampleRate: number, tuning: SpectraTuning, maxLagSamples: number) {
    this.factor = 2 ** Math.max(0, Math.floor(Math.log2(sampleRate / tuning.leastRateHz)));
    this.rate = sampleRate / this.factor;
    const frames = (seconds: number): number => Math.round(seconds * this.rate);
    this.decimator = new Decimator(this.factor);
    this.before = frames(tuning.beforeSeconds);
    this.length = this.before + frames(tuning.afterSeconds);
    this.noiseLength = frames(tuning.noiseSeconds);
    this.lookAheadFrames = (this.length - this.before) * this.factor + this.decimator.reach;
    this.size = 2 ** Math.ceil(Math.log2(this.length + Math.ceil(maxLagSamples / this.factor)));
    const fades = { fadeIn: frames(tuning.fadeInSeconds), fadeOut: frames(tuning.fadeOutSeconds) };
    this.window = fadeWindow(this.length, fades);
    this.noiseWindow = fadeWindow(this.noiseLength, fades);
    const power = (w: Float64Array): number => w.reduce((sum, x) => sum + x * x, 0);
    this.noiseScale = power(this.window) / power(this.noiseWindow);
    this.atOnce = Math.ceil((this.factor > 1 ? LOWERED_FRAMES : PIECE_FRAMES) / this.factor);
    this.frames = new Float64Array(this.decimator.framesFor(this.atOnce));
    this.lowered = new Float64Array(this.atOnce);
    this.transform = new TransformInParts(this.size);
    this.input = room64(2 * this.size);
    this.output = room64(2 * this.size);
    const bins = (): Float64Array => room64(this.size / 2 + 1);
    this.bins = { aRe: bins(), aIm: bins(), bRe: bins(), bIm: bins() };
  }

  /**
   * One piece of the stretch that begins 5 ms before `anchor` (hit), or ends there (noise). Real-time safe: yes.
   * @param frames those that have come in
   */
  work(a: Ring, b: Ring, frames: number, anchor: number, noise: boolean): Piece {
    if (this.pieces === 0) return this.load(a, b, frames, anchor, noise);
    if (this.pieces <= PARTS) this.transform.part(this.input, this.pieces - 1);
    else if (this.pieces === PARTS + 1) this.transform.join(this.output);
    else {
      const { aRe, aIm, bRe, bIm } = this.bins;
      splitSpectra(this.output, this.size, aRe, aIm, bRe, bIm);
      this.clear();
      return 'done';
    }
    this.pieces++;
    return 'part';
  }

  private load(a: Ring, b: Ring, frames: number, anchor: number, noise: boolean): Piece {
    const { factor, decimator, loaded } = this;
    const length = noise ? this.noiseLength : this.length;
    const window = noise ? this.noiseWindow : this.window;
    const to = Math.min(length, loaded + this.atOnce);
    const from = Math.round(anchor) - factor * (this.before + (noise ? this.noiseLength : 0));
    const end = from + to * factor + decimator.reach;
    if (frames < (to === length && !noise ? anchor + this.lookAheadFrames + 1 : end)) return 'waiting';
    if (loaded === 0) this.input.fill(0);
    const n = to - loaded;
    this.takeIn(a, from + loaded * factor, n, window, 0);
    this.takeIn(b, from + loaded * factor, n, window, 1);
    this.loaded = to;
    if (to === length) this.pieces = 1;
    return 'part';
  }

  /** n frames of one channel, behind those that are there, as the real or the imaginary part. */
  private takeIn(ring: Ring, from: number, n: number, window: Float64Array, part: 0 | 1): void {
    const { decimator, frames, lowered, input, loaded } = this;
    ring.copy(from - decimator.reach, frames, decimator.framesFor(n));
    if (this.factor > 1) decimator.run(frames, lowered, n);
    const made = this.factor > 1 ? lowered : frames;
    for (let i = 0; i < n; i++) input[2 * (loaded + i) + part] = (window[loaded + i] as number) * (made[i] as number);
  }

  /** Begin anew. Real-time safe: yes. */
  clear(): void {
    this.loaded = 0;
    this.pieces = 0;
  }
}
