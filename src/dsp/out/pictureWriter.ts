/** Writes pictures of the kept hits (src/reading/hitPictures.ts) on request into an array that was handed over. */

import { CLOSE_COLUMNS, PICTURE, PICTURE_COLUMNS, PICTURES_LENGTH, type PictureWish } from '../../reading/hitPictures';
import type { HitStore } from '../hit/hitStore';
import type { HitWaves } from '../hit/hitWaves';
import type { HeardSource } from './sources';
import { ToldHits } from './toldHits';

export class PictureWriter {
  private readonly perMs: number;
  private readonly told = new ToldHits();

  constructor(
    sampleRate: number,
    private readonly store: HitStore,
    private readonly waves: HitWaves,
    private readonly heard: Pick<HeardSource, 'shownAt'>,
  ) {
    this.perMs = sampleRate / 1000;
    // the first runs of any code cost ten times more: here, not on the audio thread
    const first = PICTURE.factsLength;
    const trial = new Float32Array(first + 4 * PICTURE_COLUMNS);
    waves.from[0] = 0;
    for (let i = 0; i < 100; i++) this.columns(trial, first, PICTURE_COLUMNS, waves.a, 0, 1, waves.length - 3, 1);
    waves.forget(0);
  }

  /**
   * Real-time safe: yes, unless it throws.
   * @param flip −1: B is shown inverted
   * @throws RangeError when `out` has not length PICTURES_LENGTH
   */
  write(out: Float32Array, wish: PictureWish, flip: number): void {
    if (out.length !== PICTURES_LENGTH)
      throw new RangeError(`out must have length ${PICTURES_LENGTH} but had length ${out.length}`);
    const { store, told } = this;
    const { head, facts, closeAt } = PICTURE;
    told.choose(store, this.heard.shownAt);
    out.fill(0);
    out[head.alignSamples] = wish.alignSamples ?? Number.NaN;
    out[head.fromMs] = wish.fromMs;
    out[head.lengthMs] = wish.lengthMs;
    out[head.closeFromMs] = wish.closeFromMs;
    out[head.closeLengthMs] = wish.closeLengthMs;
    let n = 0;
    for (let i = told.count - 1; i >= 0; i--) {
      const s = told.slots[i] as number;
      const serial = store.serial[s] as number;
      if (!store.hasArrival[s]) continue;
      const at = PICTURE.smallAt(n);
      this.picture(out, at, s, PICTURE_COLUMNS, wish.alignSamples, wish.fromMs, wish.lengthMs, flip);
      out[at + facts.serial] = serial;
      n++;
      if (serial !== wish.closeSerial) continue;
      this.picture(out, closeAt, s, CLOSE_COLUMNS, wish.alignSamples, wish.closeFromMs, wish.closeLengthMs, flip);
      out[closeAt + facts.serial] = serial;
      out[head.closeSerial] = serial;
    }
    out[head.count] = n;
  }

  private picture(
    out: Float32Array,
    at: number,
    s: number,
    columns: number,
    alignSamples: number | null,
    fromMs: number,
    lengthMs: number,
    flip: number,
  ): void {
    const { store, waves } = this;
    const arrivalA = store.arrivalA[s] as number;
    const arrivalB = store.arrivalB[s] as number;
    const shift = alignSamples ?? 0;
    let zero = store.anchor[s] as number;
    if (alignSamples !== null && !Number.isNaN(arrivalA)) zero = arrivalA;
    else if (alignSamples !== null && !Number.isNaN(arrivalB)) zero = arrivalB - shift;
    const from = zero + fromMs * this.perMs;
    const length = lengthMs * this.perMs;
    const bound = store.noiseBound[s] as number;
    const clipped = store.clipped[s] as number;
    const { facts, factsLength } = PICTURE;
    const toA = at + factsLength;
    out[at + facts.aArrival] = (arrivalA - from) / length;
    out[at + facts.bArrival] = (arrivalB - shift - from) / length;
    out[at + facts.aPush] = store.pushA[s] as number;
    out[at + facts.bPush] = flip * (store.pushB[s] as number);
    out[at + facts.aPeak] = this.columns(out, toA, columns, waves.a, s, from, length, 1);
    out[at + facts.bPeak] = this.columns(out, toA + 2 * columns, columns, waves.b, s, from + shift, length, flip);
    out[at + facts.aQuality] = store.qualityA[s] as number;
    out[at + facts.bQuality] = store.qualityB[s] as number;
    out[at + facts.noiseBits] = bound;
    out[at + facts.clipBits] = clipped;
    out[at + facts.oneSided] = store.oneSided[s] as number;
  }

  /** Least and largest of the line through the samples in each column, divided by the largest |x|. @returns that */
  private columns(
    out: Float32Array,
    at: number,
    columns: number,
    wave: Float32Array,
    slot: number,
    from: number,
    length: number,
    flip: number,
  ): number {
    const { waves } = this;
    const kept = waves.length;
    const base = slot * kept;
    // the kept samples are 0…kept − 1 on this clock; NaN where nothing is kept, and then no comparison below holds
    const start = from - (waves.from[slot] as number);
    let peak = 0;
    for (let c = 0; c < columns; c++) {
      const begin = start + (c * length) / columns;
      const end = start + ((c + 1) * length) / columns;
      if (!(begin >= 0 && end < kept - 1)) {
        out[at + 2 * c] = Number.NaN;
        out[at + 2 * c + 1] = Number.NaN;
        continue;
      }
      let k = Math.floor(begin);
      let low = lerp(wave, base + k, begin - k);
      let high = low;
      for (k++; k < end; k++) {
        const x = wave[base + k] as number;
        if (x < low) low = x;
        if (x > high) high = x;
      }
      const last = lerp(wave, base + k - 1, end - (k - 1));
      if (last < low) low = last;
      if (last > high) high = last;
      out[at + 2 * c] = flip > 0 ? low : -high;
      out[at + 2 * c + 1] = flip > 0 ? high : -low;
      peak = Math.max(peak, -low, high);
    }
    if (peak > 0) for (let i = at; i < at + 2 * columns; i++) out[i] = (out[i] as number) / peak;
    return peak;
  }
}

function lerp(wave: Float32Array, i: number, share: number): number {
  const x = wave[i] as number;
  return x + share * ((wave[i + 1] as number) - x);
}
