/** The live meter on the pairs of a take, each while its drum is hit: what it says beside what the take says. */
import type { Measurement } from '../../../src/advice/measurement';
import { measureChannels } from '../../../src/cli/measure';
import type { DrumReport, PairReport, TakeReport } from '../../../src/take/model';

export interface Agreement {
  drum: string;
  pair: PairReport;
  liveSamples: number | null;
  /** null: not both answered */
  agree: boolean | null;
}

const BEFORE_SECONDS = 1;
const AFTER_SECONDS = 0.9;

/**
 * @param tracks of each file, one rate
 * @param hitsOf seconds at which a drum of the report is hit, with no other between them
 * @returns every pair of the drum's own track; of a drum without one those of the track that it is compared with
 */
export function liveBesideTake(
  report: TakeReport,
  tracks: ReadonlyMap<string, Float32Array>,
  hitsOf: (drum: DrumReport) => readonly number[],
): Agreement[] {
  const { sampleRate } = report;
  return report.drums.flatMap((drum) => {
    const hits = hitsOf(drum);
    const head = drum.ownTrack ?? drum.pairs[0]?.a;
    const from = Math.max(0, Math.floor((Math.min(...hits) - BEFORE_SECONDS) * sampleRate));
    const to = Math.ceil((Math.max(...hits) + AFTER_SECONDS) * sampleRate);
    const heard = (file: string): Float32Array => (tracks.get(file) as Float32Array).slice(from, to);
    return drum.pairs
      .filter(({ a }) => a === head)
      .map((pair): Agreement => {
        const live = measureChannels(heard(pair.a), heard(pair.b), sampleRate, { kind: pair.kind });
        const liveSamples = live.state === 'measured' ? live.delaySamples : null;
        if (liveSamples === null || pair.delaySamples === null)
          return { drum: drum.drum, pair, liveSamples, agree: null };
        const within = Math.hypot(knownTo(live), knownTo(pair));
        const agree = live.polarity === pair.polarity && Math.abs(liveSamples - pair.delaySamples) <= within;
        return { drum: drum.drum, pair, liveSamples, agree };
      });
  });
}

/** 90 %; where that isn't known, what its hits repeat within */
const knownTo = ({ uncertaintySamples, spreadSamples }: Measurement): number =>
  uncertaintySamples ?? spreadSamples ?? 0;
