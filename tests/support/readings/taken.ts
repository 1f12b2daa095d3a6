import type { Taken } from '../../../src/sheet/document/model';

/** A sure reading of a snare's top and bottom as a sheet keeps it. */
export const TAKEN: Taken = {
  takenAt: '2026-01-02T03:04:05Z',
  take: 'take 1',
  initials: '',
  temperatureC: 20,
  sampleRate: 48000,
  sure: true,
  reason: '',
  polarity: 'inverted',
  delayMs: 0.1,
  uncertaintyMs: 0.02,
  spreadMs: 0.004,
  hits: 9,
  hitsUsed: 8,
  agreement: 0.9,
  fuller: 'inverted',
  fullerDb: 7.8,
  fullerLowHz: 177,
  fullerHighHz: 354,
  lowCoherency: -0.7,
  octaveCoherency: [null, null, -0.7, 0.2],
  sumDb: null,
  aInverted: false,
  bInverted: false,
};

/** At 20 °C sound goes 34.32 cm in a ms. */
const CM_PER_MS = 34.32;

/** The same with B farther from the drum. */
export const farther = (taken: Taken, cm: number): Taken => ({
  ...taken,
  delayMs: (taken.delayMs ?? 0) + cm / CM_PER_MS,
});
