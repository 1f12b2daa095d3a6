/** What is cut out of a track round each of a drum's hits, and put together to a stream that the live engine reads. */

/** heard before a hit: what rang, and noise, are judged by it; the filters settle in it */
export const BEFORE_SECONDS = 0.12;
/** heard after it: the sum is measured until 190 ms after, rooms hear it up to 34 ms later */
export const AFTER_SECONDS = 0.33;
/** where two pieces meet they are faded, or the step itself would be a hit */
const FADE_SECONDS = 0.005;

export interface PieceLengths {
  beforeFrames: number;
  frames: number;
}

export function pieceLengths(sampleRate: number): PieceLengths {
  const beforeFrames = Math.round(BEFORE_SECONDS * sampleRate);
  return { beforeFrames, frames: beforeFrames + Math.round(AFTER_SECONDS * sampleRate) };
}

/** Fades both ends of a piece, in place. */
export function fadeEnds(piece: Float32Array, sampleRate: number): void {
  const n = Math.min(Math.round(FADE_SECONDS * sampleRate), piece.length >> 1);
  for (let i = 0; i < n; i++) {
    const gain = 0.5 - 0.5 * Math.cos((Math.PI * i) / n);
    piece[i] = (piece[i] as number) * gain;
    piece[piece.length - 1 - i] = (piece[piece.length - 1 - i] as number) * gain;
  }
}

/** share of the loudest sample of the stroke that its beginning exceeds */
const BEGIN_SHARE = 0.1;
const BLOCK_SECONDS = 0.00075;
const BACK_SECONDS = 0.02;
const RISE = 3;

/**
 * Where the stroke begins in the microphone that is close to the drum: the first block that stands out of what was before and is no
 * longer small against the stroke itself, so that neither a hi-hat some milliseconds before nor what rings is taken for it.
 * @param from, to frames of the piece between which it lies @returns frame of the piece
 */
export function strokeBegin(piece: Float32Array, sampleRate: number, from: number, to: number): number {
  const block = Math.max(1, Math.round(BLOCK_SECONDS * sampleRate));
  const peakOf = (at: number): number => {
    let peak = 0;
    for (let i = Math.max(0, at); i < Math.min(piece.length, at + block); i++)
      peak = Math.max(peak, Math.abs(piece[i] as number));
    return peak;
  };
  let loudest = 0;
  for (let at = from; at < to; at += block) loudest = Math.max(loudest, peakOf(at));
  const back = Math.round(BACK_SECONDS * sampleRate);
  for (let at = from; at < to; at += block) {
    const peak = peakOf(at);
    if (peak < BEGIN_SHARE * loudest) continue;
    let before = 0;
    for (let i = at - back; i < at - block; i += block) before = Math.max(before, peakOf(i));
    if (peak > RISE * before) return at;
  }
  return from;
}
