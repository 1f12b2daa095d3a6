/**
 * Small pictures of the kept hits, for people who want to see why: both channels round the arrival, each as the least and
 * the largest value in every column, so that no swing is lost. Written on request into an array that was handed over.
 */

import { HITS_KEPT } from '../../reading/reading';
import type { HitStore } from '../hit/hitStore';
import type { HitWaves } from '../hit/hitWaves';

/** columns of a small picture, and of the one that is looked at closely */
export const PICTURE_COLUMNS = 96;
export const CLOSE_COLUMNS = 480;

/** What is wanted: a window in time, and how B is laid beside A. */
export interface PictureWish {
  /** B is drawn earlier by so many samples; null: as recorded, A and B on one clock */
  alignSamples: number | null;
  /** the window begins so long after A's arrival (as recorded: the earlier arrival; the trigger where there is none), ms */
  fromMs: number;
  lengthMs: number;
  /** serial of the hit that is looked at closely, 0: none, and the window for it */
  closeSerial: number;
  closeFromMs: number;
  closeLengthMs: number;
}

const HEAD = 7;
/** serial, arrivals, pushes, peaks, qualities, noise bits, clip bits, one-sided */
const FIELDS = 12;
const SMALL = FIELDS + 4 * PICTURE_COLUMNS;
const CLOSE_AT = HEAD + HITS_KEPT * SMALL;
/** Number of floats of a set of pictures, whatever is in it. */
export const PICTURES_LENGTH = CLOSE_AT + FIELDS + 4 * CLOSE_COLUMNS;

/** One channel of a picture. */
export interface ChannelPicture {
  /** where the first push begins, as a share of the window's length (below 0, above 1: outside); null: none was found */
  arrival: number | null;
  /** the way of the first push: +1, −1; 0: none was found */
  push: number;
  /** largest |x| in the window, full scale 1: what the columns are divided by */
  peak: number;
  /** first half-wave over the largest value in the 2 ms before it; 0: none was found */
  quality: number;
  /** the noise, not the drum, set the threshold of the pick */
  noiseBound: boolean;
  clipped: boolean;
  /** per column the least and the largest value, −1…+1 of the peak; NaN where nothing was kept */
  columns: Float32Array;
}

export interface HitPicture {
  serial: number;
  a: ChannelPicture;
  b: ChannelPicture;
  /** which channel alone heard it */
  only: 'a' | 'b' | null;
}

export interface Pictures {
  wish: PictureWish;
  /** newest first */
  hits: HitPicture[];
  close: HitPicture | null;
}

export class PictureWriter {
  private readonly perMs: number;

  constructor(
    sampleRate: number,
    private readonly store: HitStore,
    private readonly waves: HitWaves,
  ) {
    this.perMs = sampleRate / 1000;
    // the first runs of any code cost ten times more: here, not on the audio thread
    const trial = new Float32Array(SMALL);
    waves.from[0] = 0;
    for (let i = 0; i < 100; i++) this.columns(trial, FIELDS, PICTURE_COLUMNS, waves.a, 0, 1, waves.length - 3, 1);
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
    const { store } = this;
    out.fill(0);
    out[1] = wish.alignSamples ?? Number.NaN;
    out[2] = wish.fromMs;
    out[3] = wish.lengthMs;
    out[5] = wish.closeFromMs;
    out[6] = wish.closeLengthMs;
    let n = 0;
    for (let serial = store.count; serial >= store.first && n < HITS_KEPT; serial--) {
      const s = store.slot(serial);
      if (!store.hasArrival[s]) continue;
      const at = HEAD + n * SMALL;
      this.picture(out, at, s, PICTURE_COLUMNS, wish.alignSamples, wish.fromMs, wish.lengthMs, flip);
      out[at] = serial;
      n++;
      if (serial !== wish.closeSerial) continue;
      this.picture(out, CLOSE_AT, s, CLOSE_COLUMNS, wish.alignSamples, wish.closeFromMs, wish.closeLengthMs, flip);
      out[CLOSE_AT] = serial;
      out[4] = serial;
    }
    out[0] = n;
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
    out[at + 1] = (arrivalA - from) / length;
    out[at + 2] = (arrivalB - shift - from) / length;
    out[at + 3] = store.pushA[s] as number;
    out[at + 4] = flip * (store.pushB[s] as number);
    out[at + 5] = this.columns(out, at + FIELDS, columns, waves.a, s, from, length, 1);
    out[at + 6] = this.columns(out, at + FIELDS + 2 * columns, columns, waves.b, s, from + shift, length, flip);
    out[at + 7] = store.qualityA[s] as number;
    out[at + 8] = store.qualityB[s] as number;
    out[at + 9] = bound;
    out[at + 10] = clipped;
    out[at + 11] = store.oneSided[s] as number;
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

/** Unpack what `write` wrote; the columns are views into `data`. @throws RangeError when the length is another one */
export function picturesFrom(data: Float32Array): Pictures {
  if (data.length !== PICTURES_LENGTH)
    throw new RangeError(`pictures must have length ${PICTURES_LENGTH} but had length ${data.length}`);
  const at = (i: number): number => data[i] as number;
  const one = (i: number, columns: number): HitPicture => {
    const channel = (c: 0 | 1): ChannelPicture => {
      const arrival = at(i + 1 + c);
      const from = i + FIELDS + c * 2 * columns;
      return {
        arrival: Number.isNaN(arrival) ? null : arrival,
        push: at(i + 3 + c),
        peak: at(i + 5 + c),
        quality: at(i + 7 + c),
        noiseBound: (at(i + 9) & (1 << c)) !== 0,
        clipped: (at(i + 10) & (1 << c)) !== 0,
        columns: data.subarray(from, from + 2 * columns),
      };
    };
    const only = at(i + 11);
    return { serial: at(i), a: channel(0), b: channel(1), only: only === 0 ? null : only > 0 ? 'a' : 'b' };
  };
  return {
    wish: {
      alignSamples: Number.isNaN(at(1)) ? null : at(1),
      fromMs: at(2),
      lengthMs: at(3),
      closeSerial: at(4),
      closeFromMs: at(5),
      closeLengthMs: at(6),
    },
    hits: Array.from({ length: at(0) }, (_, n) => one(HEAD + n * SMALL, PICTURE_COLUMNS)),
    close: at(4) === 0 ? null : one(CLOSE_AT, CLOSE_COLUMNS),
  };
}
