/** The bands of the correlation trace, and how far unrelated inputs scatter in each. */

import { BROAD_HIGH_HZ, BROAD_LOW_HZ, integrationSeconds, scatterOfUnrelated } from '../../dsp/input/trace';
import { BANDS } from '../../reading/bands';
import { capital } from '../../text/sentence';

export interface TraceBand {
  title: string;
  lowHz: number;
  highHz: number;
  integrationSeconds: number;
  /** half-height of the zone round zero: ±1/√(2BT) */
  scatter: number;
}

function band(title: string, lowHz: number, highHz: number): TraceBand {
  const seconds = integrationSeconds(lowHz, highHz);
  return { title, lowHz, highHz, integrationSeconds: seconds, scatter: scatterOfUnrelated(lowHz, highHz, seconds) };
}

/** Index: 0 broadband (30 Hz–10 kHz, as the engine's trace), then the order of BANDS. */
export const TRACE_BAND_LIST: readonly TraceBand[] = [
  band('All', BROAD_LOW_HZ, BROAD_HIGH_HZ),
  ...BANDS.map((b) => band(capital(b.name), b.lowHz, b.highHz)),
];
