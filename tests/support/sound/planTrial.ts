/**
 * What a plan says that it gains, and what it gains once it is really done to the recording: B inverted, A or B delayed, the
 * two at equal level added up over the hits behind the answer. And whether anything simple near it would have gained more.
 */

import type { MeasuredAlternative, Measurement } from '../../../src/advice/measurement';
import type { Action } from '../../../src/advice/plan/alternatives';
import type { PairKindId } from '../../../src/advice/plan/pairKinds';
import { measureChannels } from '../../../src/cli/measure';
import { SUM_BAND } from '../../../src/reading/bands';
import { POOL_HITS } from '../../../src/reading/limits';
import { AddedUp, type Band, type Done } from './addedUp';
import type { Sound } from './recordedPairs';

/** what is told lies so near what is really gained, dB: where the hits carry the band well, and elsewhere */
const TOLD_DB = 0.3;
const TOLD_POORLY_DB = 1;
/** well: energy-weighted |γ|² from here on (formula: AddedUp.coherence), and neither sum thinner than that re the power sum, dB */
const WELL = 0.5;
const THIN_DB = -10;
/** the wider search goes so far round the arrival, and in such steps, ms */
const SEARCH_MS = 0.5;
const SEARCH_STEP_MS = 0.05;

export interface Checked {
  alternative: MeasuredAlternative;
  /** null: the hits carry no low octave */
  low: Figure | null;
  all: Figure;
}
export interface Figure {
  toldDb: number | null;
  gainsDb: number;
  /** the bar for this figure, dB */
  withinDb: number;
}
export interface Trial {
  checked: Checked[];
  /** what the recommended one gains, and the best of the search, dB: the smaller of the two figures; null: one isn't known */
  share: { gainsDb: number; bestDb: number } | null;
}

const PRESENT: Done = { invertB: false, delayMs: 0 };
/** a move is told as a delay; speed of sound at 20 °C: 343.21 m/s */
const doneBy = ({ invertB, delayMs, moveCm }: MeasuredAlternative): Done => ({
  invertB,
  delayMs: delayMs ?? (moveCm === null ? 0 : moveCm / 34.321),
});

/** Null: the plan has no alternatives, or no hits to add up. */
export function planTrial({ sampleRate, a, b }: Sound, kind: PairKindId): Trial | null {
  const m = measureChannels(a, b, sampleRate, { kind });
  // the very hits behind the answer: of its drum, and used; without a delay the sum is of all of the drum's in the running
  const ofDrum = m.perHit.filter(({ drum }) => drum !== null && drum === m.drum).slice(-POOL_HITS);
  const hits = m.delaySamples === null ? ofDrum : m.perHit.filter(({ used }) => used);
  const times = hits.map(({ timeSeconds }) => timeSeconds);
  return m.plan.length === 0 || times.length === 0 ? null : tryOut(m, new AddedUp(a, b, sampleRate, times));
}

function tryOut(m: Measurement, added: AddedUp): Trial {
  const { fullerLowHz, fullerHighHz } = m;
  const octave = fullerLowHz === null || fullerHighHz === null ? null : { lowHz: fullerLowHz, highHz: fullerHighHz };
  const bands: Band[] = octave === null ? [SUM_BAND] : [SUM_BAND, octave];
  const present = added.levelsDb(bands, PRESENT);
  const well = bands.map((band) => added.coherence(band) >= WELL);
  const checked = m.plan.map((alternative): Checked => {
    const levels = added.levelsDb(bands, doneBy(alternative));
    const [all, low] = levels.map((level, i): Figure => {
      const before = present[i] as number;
      const told = well[i] === true && Math.min(level, before) >= THIN_DB;
      return {
        toldDb: i === 0 ? alternative.allDb : alternative.lowDb,
        gainsDb: level - before,
        withinDb: told ? TOLD_DB : TOLD_POORLY_DB,
      };
    });
    return { alternative, low: low ?? null, all: all as Figure };
  });
  const smaller = (done: Done): number =>
    Math.min(...added.levelsDb(bands, done).map((level, i) => level - (present[i] as number)));
  const recommended = m.plan[0] as MeasuredAlternative;
  const unknown = m.plan.every(({ lowDb, allDb, ...one }) => isPresent(one) || lowDb === null || allDb === null);
  const share = (): Trial['share'] => ({
    gainsDb: smaller(doneBy(recommended)),
    bestDb: Math.max(...search(m.delayMs).map(smaller)),
  });
  return { checked, share: unknown ? null : share() };
}

const isPresent = ({ invertB, delayMs, moveCm }: Action): boolean => !invertB && delayMs === null && moveCm === null;

function search(arrivalMs: number | null): Done[] {
  const delays = [0];
  if (arrivalMs !== null)
    for (let off = -SEARCH_MS; off <= SEARCH_MS + 1e-9; off += SEARCH_STEP_MS) delays.push(arrivalMs + off);
  return delays.flatMap((delayMs) => [false, true].map((invertB) => ({ invertB, delayMs })));
}
