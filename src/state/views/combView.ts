/** The comb that delay and polarity alone would make, and how well what is measured fits it. */
import { combDb, notchesHz, POWER_SUM_DB, sumDbFromCoherency, thinZonesHz } from '../../reading/acoustics';
import { SPECTRUM_HIGH_HZ, SPECTRUM_LOW_HZ, SPECTRUM_POINTS, spectrumHz } from '../../reading/bands';
import type { Polarity, SumSpectrum } from '../../reading/reading';

/** The plot's floor: a null is −∞. */
export const SUM_LOW_DB = -18;

/** coherence up to which the hits carry a point not at all, and from which on fully */
const CARRIED_FROM = 0.1;
const CARRIED_FULLY = 0.5;
/** from this weight on a point counts as carried */
export const CARRIED_WEIGHT = 0.5;

/** a point fits whose two levels are no farther apart than this, dB */
export const FITS_DB = 3;
/** for that a notch is a notch from here on, dB re one microphone alone: how deep it gets is the levels' doing */
const NOTCH_DB = -9;
/** the comb fits from this share of what is measured on, and once it did, down to the lower one; our own choice */
const FITS_FROM = 2 / 3;
const FITS_STILL = 0.6;
/** fewer points than an octave has say nothing */
const LEAST_POINTS = 24;
/** so many of them in the comb's thin places, or none of these has been looked at */
const LEAST_THIN_POINTS = 4;

/** At f·|τ| = this, a comb's period is six points of the grid. */
const COMB_POINTS_HZ = 1 / (6 * ((SPECTRUM_HIGH_HZ / SPECTRUM_LOW_HZ) ** (1 / (SPECTRUM_POINTS - 1)) - 1));

export interface CombFit {
  /** share of the points measured where both levels lie within FITS_DB, 0…1; equal steps of pitch */
  share: number;
  /** what is measured reaches one of the places where the comb is thinner than one microphone alone */
  reaches: boolean;
}

export interface CombView {
  delayMs: number;
  /** its level at each point of the grid, dB re one microphone alone; null where it is finer than the grid */
  db: (number | null)[];
  /** notches between 20 Hz and 20 kHz */
  notchesHz: number[];
  /** null: too little is measured to tell */
  fit: CombFit | null;
  /** it fits, and what is measured reaches its thin places: worth showing unasked */
  fits: boolean;
}

/** Weight of a point: 0 … 1. */
export function carried(coherence: number): number {
  if (Number.isNaN(coherence)) return 0;
  return Math.min(1, Math.max(0, (coherence - CARRIED_FROM) / (CARRIED_FULLY - CARRIED_FROM)));
}

/** Re one microphone alone, dB, A and B at equal level, at the plot's floor or above. */
export function aloneDb(reGamma: number): number {
  return Math.max(SUM_LOW_DB, sumDbFromCoherency(reGamma) + POWER_SUM_DB);
}

/** The same of the comb. */
function combAloneDb(hz: number, delaySeconds: number, polarity: Polarity): number {
  return Math.max(SUM_LOW_DB, combDb(hz, delaySeconds, polarity).rePowerSumDb + POWER_SUM_DB);
}

/** Above this the grid is too coarse for the comb: what was drawn would be the grid's, not the comb's. */
const finestHz = (delaySeconds: number): number => COMB_POINTS_HZ / Math.abs(delaySeconds);

/** How well the comb fits where the hits carry the sum; null: they carry too little of it. */
export function combFit(
  { re, coherence }: Pick<SumSpectrum, 're' | 'coherence'>,
  delaySeconds: number,
  polarity: Polarity,
): CombFit | null {
  const toHz = Math.min(SPECTRUM_HIGH_HZ, finestHz(delaySeconds));
  const thin = thinZonesHz(delaySeconds, polarity, toHz);
  let points = 0;
  let fitting = 0;
  let thinPoints = 0;
  for (let i = 0; i < SPECTRUM_POINTS; i++) {
    const hz = spectrumHz(i);
    const x = re[i] as number;
    if (hz > toHz || Number.isNaN(x) || carried(coherence[i] as number) <= CARRIED_WEIGHT) continue;
    points++;
    const apart = Math.max(NOTCH_DB, aloneDb(x)) - Math.max(NOTCH_DB, combAloneDb(hz, delaySeconds, polarity));
    if (Math.abs(apart) <= FITS_DB) fitting++;
    if (thin.some(([low, high]) => hz >= low && hz <= high)) thinPoints++;
  }
  return points < LEAST_POINTS ? null : { share: fitting / points, reaches: thinPoints >= LEAST_THIN_POINTS };
}

/** @param before whether it did fit at the reading before */
export function combView(spectrum: SumSpectrum, delaySeconds: number, polarity: Polarity, before: boolean): CombView {
  const fit = combFit(spectrum, delaySeconds, polarity);
  const upTo = finestHz(delaySeconds);
  return {
    delayMs: delaySeconds * 1000,
    db: Array.from({ length: SPECTRUM_POINTS }, (_, i) => {
      const hz = spectrumHz(i);
      return hz > upTo ? null : combAloneDb(hz, delaySeconds, polarity);
    }),
    notchesHz: notchesHz(delaySeconds, polarity, SPECTRUM_HIGH_HZ).filter((hz) => hz >= SPECTRUM_LOW_HZ),
    fit,
    fits: fit?.reaches === true && fit.share >= (before ? FITS_STILL : FITS_FROM),
  };
}
