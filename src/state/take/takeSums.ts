/** How a take's numbers come about: of a pair, of a late track, of what all its readings say together. */
import { type SumsOf, sheetSums } from '../../sheet/sums/sheetSums';
import { lateBy, lateOverheads } from '../../take/faults/late';
import { lateSum } from '../../take/faults/lateSum';
import type { Fault, PairReport } from '../../take/model';
import { stemOf } from '../../take/names';
import { takePairSums } from '../../take/report/pairSums';
import { capital } from '../../text/sentence';
import { pairKey } from './pairView';
import type { Take } from './take';
import { knownTracks, type TakeSheet } from './takeSheet';

/** Of a pair that is measured. */
export const takePairSumId = (drum: string, pair: Pick<PairReport, 'a' | 'b'>, number = 'path'): string =>
  JSON.stringify(['take', pairKey(drum, pair), number]);

/** @returns null: no number is told of it */
export const faultSumId = ({ kind, files: [file = ''] }: Fault): string | null =>
  kind === 'late' ? JSON.stringify(['late', file]) : null;

/** @returns null: it is no number of this take */
export function takeSums(
  take: Pick<Take, 'drums' | 'pairs' | 'report' | 'readWithC' | 'tracks' | 'told'>,
  readings: ReturnType<TakeSheet['readings']>,
  id: string,
  now: Date,
): SumsOf | null {
  const [kind, key] = id.startsWith('[') ? (JSON.parse(id) as string[]) : [];
  if (kind === 'take') return pairSums(take, key ?? '');
  const report = take.report();
  const late = report?.faults.find((fault) => faultSumId(fault) === id);
  if (report && late) {
    const known = knownTracks(take);
    const { sampleRate } = report;
    const tracks = { files: known.map(({ file }) => file), mics: known.map(({ mic }) => mic), sampleRate };
    const found = lateOverheads(report.drums, tracks).find(
      (one) => one.late === late.files[0] && lateBy(one) === late.samples,
    );
    return found ? { of: stemOf(found.late), sums: [lateSum(id, found, sampleRate)] } : null;
  }
  return readings && sheetSums(readings.sheet, readings.system, id, now);
}

function pairSums(
  { drums, pairs, readWithC }: Pick<Take, 'drums' | 'pairs' | 'readWithC'>,
  key: string,
): SumsOf | null {
  const whole = pairs().find((one) => pairKey(one.drum, one) === key);
  if (!whole) return null;
  const { drum, a, b, reading } = whole;
  const told = drums().find((one) => one.drum === drum);
  const pair = told?.pairs.find((one) => one.a === a && one.b === b);
  if (!pair) return null;
  const sums = takePairSums(pair, reading, readWithC());
  return {
    of: `${capital(drum)}: ${stemOf(a)} – ${stemOf(b)}`,
    sums: sums.map((one) => ({ ...one, id: takePairSumId(drum, pair, one.id) })),
  };
}
