/** Tracks that carry one signal, gain and sign aside: their levels go together to a fraction of a decibel in every band. */
import { BANDS, type ScannedTrack } from '../scan/levelScan';

/** half decibels: a level rounds by one */
const LEAST_LEVEL = 80;
const WITHIN = 2;
const SHARE = 0.995;
const LEAST_HOPS = 50;
/** between two looks whether it can still come to that */
const LOOK_HOPS = 4096;

/** @returns pairs of numbers */
export function sameSignals(tracks: readonly ScannedTrack[]): [number, number][] {
  const pairs: [number, number][] = [];
  for (let a = 0; a < tracks.length; a++)
    for (let b = a + 1; b < tracks.length; b++)
      if (isSame(tracks[a] as ScannedTrack, tracks[b] as ScannedTrack)) pairs.push([a, b]);
  return pairs;
}

function isSame(a: ScannedTrack, b: ScannedTrack): boolean {
  const hops = Math.min(a.hops, b.hops);
  const gains = new Int32Array(512);
  // with more that don't go together than this the share can't be reached, whatever follows
  const mostApart = (1 - SHARE) * BANDS * hops;
  let n = 0;
  for (let from = 0; from < hops; from += LOOK_HOPS) {
    const to = Math.min(hops, from + LOOK_HOPS);
    for (let band = 0; band < BANDS; band++) {
      const x = a.bands[band] as Uint8Array;
      const y = b.bands[band] as Uint8Array;
      for (let h = from; h < to; h++) {
        if ((x[h] as number) < LEAST_LEVEL || (y[h] as number) < LEAST_LEVEL) continue;
        const gain = 255 + (x[h] as number) - (y[h] as number);
        gains[gain] = (gains[gain] as number) + 1;
        n++;
      }
    }
    if (n - together(gains) > mostApart) return false;
  }
  return n >= LEAST_HOPS && together(gains) >= SHARE * n;
}

/** Levels that differ by one gain, roundings aside. */
function together(gains: Int32Array): number {
  let most = 0;
  for (let gain = WITHIN; gain < gains.length - WITHIN; gain++) {
    let sum = 0;
    for (let i = gain - WITHIN / 2; i <= gain + WITHIN / 2; i++) sum += gains[i] as number;
    most = Math.max(most, sum);
  }
  return most;
}
