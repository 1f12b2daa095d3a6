/** A pair is accepted from its drum alone; then the whole kit plays: what does the sheet say of it? */
import { Engine } from '../../../src/dsp/engine';
import { type TuningChanges, tuned } from '../../../src/dsp/tuning/tuned';
import type { Reading } from '../../../src/reading/reading';
import type { Taken } from '../../../src/sheet/document/model';
import { knownOf } from '../../../src/sheet/pair/known';
import type { Recheck } from '../../../src/sheet/pair/recheck';
import { type TakenWith, takenFrom } from '../../../src/sheet/pair/taken';
import { lookAgain } from '../../../src/state/pair/secondLook';
import { shift } from '../../support/sound/resample';
import { type TakePair, takePairs, takeTrack, takeTruth } from '../engine/takes';
import { samplesOf } from './knockedFile';
import { LOOK_SECONDS } from './standing';

const [SOLO, GROOVE] = ['kit-b-solo', 'kit-b-groove'];
const DRUM = 'snare';
const LAG_MS = 34;
/** the solo take's stretch of the drum: so long before its first hit and after its last, s */
const BEFORE_SECONDS = 0.5;
const AFTER_SECONDS = 1.5;
/** a hit is in the reading so long after it, s */
const KNOWN_SECONDS = 0.15;
/** a hit is the drum's where it lies so near, s */
const SAME_HIT_SECONDS = 0.03;

const GIVEN: TakenWith = {
  takenAt: '2026-01-01T00:00:00.000Z',
  run: '1',
  initials: '',
  kind: 'close-overhead',
  temperatureC: 20,
  aInverted: false,
  bInverted: false,
  meterInvert: false,
  turned: false,
  shown: null,
};

/** The meter goes on as the band begins, or it begins anew, as a recheck does; then a person may choose the drum, once it was hit twice. */
export const METERS = ['goes on', 'anew', 'anew, drum chosen'] as const;
export type MeterThen = (typeof METERS)[number];

export interface SheetNotice {
  pair: TakePair;
  accepted: Taken;
  /** times that each was said anew in the groove, by how many of the drum's hits there it was first said (NaN: never), and how far that was */
  said: Record<Recheck['change'] | 'which', { times: number; firstHit: number; fartherCm: number | null }>;
  /** what stands at the end; null: nothing is said */
  end: Recheck | 'which' | null;
}

export const sheetPairs = (): TakePair[] => takePairs(SOLO as string).filter(({ drum }) => drum === DRUM);

/**
 * @param cm B further while the groove plays
 * @param meter what is done with it as the groove begins
 */
export function sheetNotices(pair: TakePair, cm: number, meter: MeterThen, changes: TuningChanges): SheetNotice {
  const solo = { a: takeTrack(SOLO as string, pair.a), b: takeTrack(SOLO as string, pair.b) };
  const groove = { a: takeTrack(GROOVE as string, pair.a), b: takeTrack(GROOVE as string, pair.b) };
  const { sampleRate } = solo.a;
  const at = hitsOf(SOLO as string);
  const from = Math.round(((at[0] as number) - BEFORE_SECONDS) * sampleRate);
  const to = Math.round(((at.at(-1) as number) + AFTER_SECONDS) * sampleRate);
  const started = (): Engine => new Engine(sampleRate, { tuning: tuned(changes), maxLagMs: LAG_MS });
  let engine = started();
  run(engine, solo.a.x.subarray(from, to), solo.b.x.subarray(from, to), sampleRate, () => undefined);
  const accepted = takenFrom(engine.reading(), GIVEN);
  if (meter !== 'goes on') {
    engine = started();
    // as the page does for a recheck
    const expected = knownOf(accepted, GIVEN.aInverted, GIVEN.bInverted);
    const perMs = sampleRate / 1000;
    if (expected)
      engine.expect(expected.delayMs * perMs, expected.sign, (expected.uncertaintyMs ?? Number.NaN) * perMs);
  }
  const b = cm === 0 ? groove.b.x : Float32Array.from(shift(groove.b.x, samplesOf(cm, sampleRate)));
  const never = () => ({ times: 0, firstHit: Number.NaN, fartherCm: null as number | null });
  const said: SheetNotice['said'] = {
    same: never(),
    moved: never(),
    polarity: never(),
    unknown: never(),
    which: never(),
  };
  let end: SheetNotice['end'] = null;
  let known: number | null = null;
  const struck = hitsOf(GROOVE as string);
  const chosen = meter === 'anew, drum chosen';
  run(engine, groove.a.x, b, sampleRate, (now, seconds) => {
    const drum = chosen && !now.drumChosen ? drumOf(now, struck) : null;
    if (drum !== null) engine.setDrum(drum);
    const reading = drum === null ? now : engine.reading();
    const read = takenFrom(reading, GIVEN);
    const found = read.hitsUsed === 0 ? null : lookAgain(accepted, read, reading, () => GIVEN, known);
    const before = changeOf(end);
    end = found === null || found === 'which' ? found : found.recheck;
    if (found !== null && found !== 'which' && found.recheck.change === 'same') known = found.drum;
    const change = changeOf(end);
    if (change === null || change === before) return;
    const of = said[change];
    of.times++;
    if (!Number.isNaN(of.firstHit)) return;
    of.firstHit = struck.filter((t) => t + KNOWN_SECONDS <= seconds).length;
    of.fartherCm = end === null || end === 'which' ? null : end.fartherCm;
  });
  return { pair, accepted, said, end };
}

const changeOf = (end: SheetNotice['end']): Recheck['change'] | 'which' | null =>
  end === null || end === 'which' ? end : end.change;

/** The meter's drum that was hit at two of these times; null: none yet. */
function drumOf({ perHit }: Reading, struck: readonly number[]): number | null {
  const own = perHit.filter(({ timeSeconds }) => struck.some((t) => Math.abs(t - timeSeconds) < SAME_HIT_SECONDS));
  return own.find(({ drum }, i) => drum !== null && own.findIndex((one) => one.drum === drum) < i)?.drum ?? null;
}

const hitsOf = (take: string): number[] =>
  takeTruth(take)
    .hits.filter(({ drum }) => drum === DRUM)
    .map(({ seconds }) => seconds);

/** @param look at every reading in which something was worked out anew, with the seconds played */
function run(
  engine: Engine,
  a: Float32Array,
  b: Float32Array,
  sampleRate: number,
  look: (reading: Reading, seconds: number) => void,
): void {
  const block = Math.round(LOOK_SECONDS * sampleRate);
  let { changes } = engine;
  for (let i = 0; i < a.length; i += block) {
    engine.push(a.subarray(i, i + block), b.subarray(i, i + block));
    if (engine.changes === changes) continue;
    changes = engine.changes;
    look(engine.reading(), (i + block) / sampleRate);
  }
}
