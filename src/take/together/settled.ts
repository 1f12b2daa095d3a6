/** A drum's pairs with what the other tracks make of them. */
import { measurementOf } from '../../advice/measurement';
import { type MeasuredAnswer, type Reading, shownDrum } from '../../reading/reading';
import type { PairReport } from '../model';
import { stemOf } from '../names';
import { unclear } from '../pairs/plausible';
import type { ReadPair } from '../pairs/readWhole';
import { type DrumTracks, type Settled, settle } from './together';

/**
 * The answer of a pair that others settle stands in its reading, so that what to do follows from it as from any other. What a delay would
 * gain is told as far as the pair's own hits carry it: round the present, not round an arrival that they don't show.
 * @param whole of each pair the whole reading @returns both, with what the others say
 */
export function settled(
  pairs: readonly PairReport[],
  whole: readonly ReadPair[],
  tracks: DrumTracks,
  temperatureC: number,
): { pairs: PairReport[]; whole: ReadPair[] } {
  const readings = [...whole];
  const told = settle(pairs, tracks).map((found, i): PairReport => {
    const [pair, read] = [pairs[i] as PairReport, whole[i] as ReadPair];
    if (found === null) return pair;
    if (found.kind === 'contradicted') return unclear(pair, found.reason);
    const reading = answered(read.reading, found);
    if (reading === null) return pair;
    readings[i] = { ...read, reading };
    const measured = measurementOf(reading, pair.perHit, {
      kind: pair.kind,
      temperatureC,
      drumName: read.drum,
      labels: [stemOf(pair.a), stemOf(pair.b)],
    });
    return { ...pair, ...measured, reason: found.reason, from: 'others' };
  });
  return { pairs: told, whole: readings };
}

/** The reading with that answer for the drum that it is of; null: it is of none. */
function answered(reading: Reading, found: Extract<Settled, { kind: 'answer' }>): Reading | null {
  const drum = shownDrum(reading);
  if (drum === null || reading.inputs.fault !== null) return null;
  const answer: MeasuredAnswer = {
    hits: drum.hits,
    hitsPooled: drum.hitsPooled,
    hitsUsed: drum.hitsUsed,
    agreement: null,
    state: 'measured',
    reason: 'agreed',
    polarity: found.sign > 0 ? 'same' : 'inverted',
    delaySamples: found.delaySamples,
    spreadSamples: null,
    uncertaintySamples: found.uncertaintySamples,
    method: null,
  };
  return { ...reading, drums: reading.drums.map((one) => (one.id === drum.id ? { ...drum, ...answer } : one)) };
}
