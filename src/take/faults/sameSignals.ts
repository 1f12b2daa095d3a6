/** Tracks that carry one signal, gain and sign aside: their levels go together to a fraction of a decibel in every band. */
import { BANDS, type ScannedTrack } from '../scan/levelScan';

/** half decibels: a level rounds by one */
const LEAST_LEVEL = 80;
const WITHIN = 2;
const SHARE = 0.995;
const LEAST_HOPS = 50;

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
  let n = 0;
  for (let band = 0; band < BANDS; band++) {
    const x = a.bands[band] as Uint8Array;
    const y = b.bands[band] as Uint8Array;
    for (let h = 0; h < hops; h++) {
      if ((x[h] as number) < LEAST_LEVEL || (y[h] as number) < LEAST_LEVEL) continue;
      const gain = 255 + (x[h] as number) - (y[h] as number);
      gains[gain] = (gains[gain] as number) + 1;
      n++;
    }
  }
  if (n < LEAST_HOPS) return false;
  let most = 0;
  for (let gain = WITHIN; gain < gains.length - WITHIN; gain++) {
    let sum = 0;
    for (let i = gain - WITHIN / 2; i <= gain + WITHIN / 2; i++) sum += gains[i] as number;
    most = Math.max(most, sum);
  }
  return most >= SHARE * n;
}
