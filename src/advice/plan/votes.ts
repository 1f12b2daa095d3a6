/** What the sum says: which polarity comes out fuller, in which band, by how much, now and after a shift. */
import { predictedCoherency, sumDbFromCoherency } from '../../reading/acoustics';
import { spectrumHz } from '../../reading/bands';
import type { SumReading } from '../../reading/reading';

/** below this one polarity is as good as the other */
export const DECIDES_DB = 1;
/** from here on a band that says the opposite is worth a sentence */
const STRONG_DB = 2;
/** a band that lies by this share inside the drum's own low band (in octaves) is the same witness, not another */
const SAME_BAND_SHARE = 0.5;
/** a prediction needs the coherency at this share of a band's points */
const CARRIED_SHARE = 0.5;

/** One band's answer, in the polarity that the meter shows: `as-is` as read, `inverted` with B turned over from there. */
export interface SumVote {
  prefers: 'as-is' | 'inverted';
  /** by how much fuller, dB > 0 */
  db: number;
  lowHz: number;
  highHz: number;
}

const finite = (x: number | null): x is number => x !== null && Number.isFinite(x);

/** The drum's own low band; null where the sum has no answer or none worth 1 dB. */
export function lowEndVote(sum: SumReading): SumVote | null {
  const { fuller, fullerDb, fullerLowHz, fullerHighHz } = sum;
  if (fuller !== 'as-is' && fuller !== 'inverted') return null;
  if (!finite(fullerDb) || !finite(fullerLowHz) || !finite(fullerHighHz) || Math.abs(fullerDb) < DECIDES_DB)
    return null;
  return { prefers: fuller, db: Math.abs(fullerDb), lowHz: fullerLowHz, highHz: fullerHighHz };
}

/**
 * Is lowHz…highHz another witness than the drum's own low band? Not where most of it (in octaves) lies inside, nor where its
 * middle lies below: the own low band is the lowest that carries the drum.
 */
function isOther(lowHz: number, highHz: number, sum: SumReading): boolean {
  const { fullerLowHz, fullerHighHz } = sum;
  if (!finite(fullerLowHz) || !finite(fullerHighHz)) return true;
  if (Math.sqrt(lowHz * highHz) < fullerLowHz) return false;
  const overlap = Math.log2(Math.min(highHz, fullerHighHz) / Math.max(lowHz, fullerLowHz));
  return overlap / Math.log2(highHz / lowHz) < SAME_BAND_SHARE;
}

/** The strongest other band that prefers the other polarity; null: none does by 2 dB or more. */
export function opposingVote(sum: SumReading, decided: SumVote['prefers']): SumVote | null {
  let strongest: SumVote | null = null;
  for (const { lowHz, highHz, sumDb, sumInvertedDb } of sum.bands) {
    if (!finite(sumDb) || !finite(sumInvertedDb)) continue;
    if (!isOther(lowHz, highHz, sum)) continue;
    const db = Math.abs(sumDb - sumInvertedDb);
    const prefers = sumDb > sumInvertedDb ? 'as-is' : 'inverted';
    if (prefers === decided || db < STRONG_DB || (strongest && strongest.db >= db)) continue;
    strongest = { prefers, db, lowHz, highHz };
  }
  return strongest;
}

/**
 * What the drum's own low band should say once B's delay has fallen by `shiftSeconds`: Re γ turned by the shift, averaged
 * over the band's points. An estimate (points weigh alike); null where the band isn't carried or 1 dB isn't reached.
 */
export function predictedLowEndVote(sum: SumReading, shiftSeconds: number): SumVote | null {
  const { fullerLowHz: lowHz, fullerHighHz: highHz, spectrum } = sum;
  if (!finite(lowHz) || !finite(highHz)) return null;
  let points = 0;
  let carried = 0;
  let total = 0;
  for (let i = 0; i < spectrum.re.length; i++) {
    const hz = spectrumHz(i);
    if (hz < lowHz || hz > highHz) continue;
    points++;
    const re = predictedCoherency(spectrum.re[i] as number, spectrum.im[i] as number, hz, shiftSeconds, false);
    if (!Number.isFinite(re)) continue;
    carried++;
    total += re;
  }
  if (carried === 0 || carried < CARRIED_SHARE * points) return null;
  const db = sumDbFromCoherency(total / carried) - sumDbFromCoherency(-total / carried);
  if (Math.abs(db) < DECIDES_DB) return null;
  return { prefers: db > 0 ? 'as-is' : 'inverted', db: Math.abs(db), lowHz, highHz };
}
