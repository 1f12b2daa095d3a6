/** Where something begins in one track: one of its bands rises clearly above what was just before. */
import { BANDS, LEAST_DB, type ScannedTrack } from '../scan/levelScan';

/** hops that a rise is judged by: what rings, and what leads in, lies before */
const BEFORE_HOPS = 20;
const NEWEST_BEFORE = 2;
/** half decibels that a band rises by at least. Chosen on the takes of a real kit. */
const RISE = 18;
/** above the level that the band falls below a tenth of the time */
const ABOVE_FLOOR = 24;
/** two in one track lie at least so far apart */
const REFRACTORY_HOPS = 25;
const QUIET_SHARE = 0.1;

export interface Onset {
  /** hop in which it begins */
  hop: number;
  /** by how much the band that rises most rises, dB */
  riseDb: number;
}

/** @returns ascending */
export function onsetsOf({ bands, hops }: ScannedTrack): Onset[] {
  const floors = bands.map((band) => quietLevel(band));
  const found: Onset[] = [];
  let blind = 0;
  for (let h = BEFORE_HOPS; h < hops; h++) {
    if (h < blind) continue;
    let most = 0;
    for (let b = 0; b < BANDS; b++) {
      const band = bands[b] as Uint8Array;
      const now = band[h] as number;
      if (now < (floors[b] as number) + ABOVE_FLOOR) continue;
      let before = 0;
      for (let i = h - BEFORE_HOPS; i < h - NEWEST_BEFORE + 1; i++) before = Math.max(before, band[i] as number);
      most = Math.max(most, now - before);
    }
    if (most < RISE) continue;
    found.push({ hop: h, riseDb: most / 2 });
    blind = h + REFRACTORY_HOPS;
  }
  return found;
}

/** Level that a tenth of the hops lie below; digital silence is left out. */
function quietLevel(band: Uint8Array): number {
  const counts = new Uint32Array(256);
  for (const level of band) counts[level] = (counts[level] as number) + 1;
  const sounding = band.length - (counts[0] as number);
  let below = 0;
  for (let level = 1; level < 256; level++) {
    below += counts[level] as number;
    if (below >= QUIET_SHARE * sounding) return level;
  }
  return 2 * -LEAST_DB;
}
