/**
 * Small pictures of the kept hits, for people who want to see why, packed into one Float32Array: both channels round the
 * arrival, each as the least and the largest value in every column, so that no swing is lost. Layout: head · small
 * pictures · the one that is looked at closely. The writer is src/dsp/out/pictureWriter.ts.
 */
import { HITS_KEPT } from './limits';
import { group, number, optional } from './record';

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

const HEAD = group({
  count: number,
  alignSamples: optional,
  fromMs: number,
  lengthMs: number,
  closeSerial: number,
  closeFromMs: number,
  closeLengthMs: number,
});

/** What stands before a picture's columns; bits: 1 of A, 2 of B. */
const FACTS = group({
  serial: number,
  aArrival: optional,
  bArrival: optional,
  aPush: number,
  bPush: number,
  aPeak: number,
  bPeak: number,
  aQuality: number,
  bQuality: number,
  noiseBits: number,
  clipBits: number,
  /** +1: only A heard it, −1: only B, 0: both */
  oneSided: number,
});

const SMALL = FACTS.length + 4 * PICTURE_COLUMNS;
const CLOSE_AT = HEAD.length + HITS_KEPT * SMALL;
/** Where the writer puts things. A picture is its facts, then A's columns, then B's (two numbers a column). */
export const PICTURE = {
  head: HEAD.slot,
  facts: FACTS.slot,
  factsLength: FACTS.length,
  closeAt: CLOSE_AT,
  /** Real-time safe: yes. */
  smallAt: (n: number): number => HEAD.length + n * SMALL,
} as const;
/** Number of floats of a set of pictures, whatever is in it. */
export const PICTURES_LENGTH = CLOSE_AT + FACTS.length + 4 * CLOSE_COLUMNS;

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

/** Unpack what `write` wrote; the columns are views into `data`. @throws RangeError when the length is another one */
export function picturesFrom(data: Float32Array): Pictures {
  if (data.length !== PICTURES_LENGTH)
    throw new RangeError(`pictures must have length ${PICTURES_LENGTH} but had length ${data.length}`);
  const { count, closeSerial, ...laid } = HEAD.read(data, 0);
  return {
    wish: { ...laid, closeSerial },
    hits: Array.from({ length: count }, (_, n) => pictureAt(data, PICTURE.smallAt(n), PICTURE_COLUMNS)),
    close: closeSerial === 0 ? null : pictureAt(data, CLOSE_AT, CLOSE_COLUMNS),
  };
}

function pictureAt(data: Float32Array, at: number, columns: number): HitPicture {
  const facts = FACTS.read(data, at);
  const channel = (of: 'a' | 'b'): ChannelPicture => {
    const bit = of === 'a' ? 1 : 2;
    const from = at + FACTS.length + (of === 'a' ? 0 : 2 * columns);
    return {
      arrival: facts[`${of}Arrival`],
      push: facts[`${of}Push`],
      peak: facts[`${of}Peak`],
      quality: facts[`${of}Quality`],
      noiseBound: (facts.noiseBits & bit) !== 0,
      clipped: (facts.clipBits & bit) !== 0,
      columns: data.subarray(from, from + 2 * columns),
    };
  };
  const { serial, oneSided } = facts;
  return { serial, a: channel('a'), b: channel('b'), only: oneSided === 0 ? null : oneSided > 0 ? 'a' : 'b' };
}
