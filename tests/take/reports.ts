/** Reports of takes that nobody recorded, for the rules that judge them. */
import type { DrumReport, PairReport } from '../../src/take/model';

export type Read = Pick<PairReport, 'a' | 'b'> & Partial<PairReport>;

/** A pair that is measured, as far as it is told. */
export function pairReport({ a, b, ...rest }: Read): PairReport {
  return {
    ...({
      state: 'measured',
      polarity: 'same',
      delaySamples: 0,
      pathCm: 0,
      fuller: null,
      fullerDb: null,
      plan: [],
    } as unknown as PairReport),
    a,
    b,
    ...rest,
  };
}

export function drumReport(drum: string, ownTrack: string | null, pairs: readonly Read[]): DrumReport {
  return { drum, ownTrack, pitchHz: null, hits: 8, hitsUsable: 8, pairs: pairs.map(pairReport) };
}
