/** Recordings in which nothing moves: how often does the engine say that something did? */
import { pairKind } from '../../../src/advice/plan/pairKinds';
import { Engine } from '../../../src/dsp/engine';
import { type TuningChanges, tuned } from '../../../src/dsp/tuning/tuned';
import type { CaseGroup } from '../../cases/case';
import { QUOTED_SEEDS } from '../../cases/case';
import { drawCase, groupOf, TURN_LENGTH } from '../../cases/drawCase';
import { renderCase } from '../../cases/renderCase';
import { realRecordings, realRecordingsHere } from '../../support/sound/realRecordings';
import { realCase, VARIANTS } from '../cases/realCases';
import { TAKES, takePairs, takesHere, takeTrack } from '../engine/takes';
import { type MoveEvent, MoveWatch } from './moveWatch';

/** readings are looked at about every 25 ms, as on the screen */
export const LOOK_SECONDS = 0.025;
const NEAR_LAG_MS = 11;
const TAKES_LAG_MS = 34;
/** rounds through the groups of drawn cases */
const ROUNDS = 8;
export const DRAWN_SEEDS = `${QUOTED_SEEDS.from}–${QUOTED_SEEDS.from + ROUNDS * TURN_LENGTH - 1}`;
/** something moves there */
const MOVING: readonly CaseGroup[] = ['moving', 'knocked'];
/** no delay can be told there: what a move would be nobody knows */
const NO_TRUTH: readonly CaseGroup[] = ['dead input', 'unrelated', 'one signal'];

export interface StandingRun {
  group: string;
  name: string;
  hits: number;
  events: readonly MoveEvent[];
  flips: number;
}

interface Sound {
  a: Float32Array;
  b: Float32Array;
  sampleRate: number;
  maxLagMs: number;
}

/** One recording, whole. */
export function watchStanding(
  { a, b, sampleRate, maxLagMs }: Sound,
  changes: TuningChanges,
): Omit<StandingRun, 'group' | 'name'> {
  const engine = new Engine(sampleRate, { maxLagMs, tuning: tuned(changes) });
  const watch = new MoveWatch(engine);
  const block = Math.round(LOOK_SECONDS * sampleRate);
  for (let i = 0; i < a.length; i += block) {
    engine.push(a.subarray(i, i + block), b.subarray(i, i + block));
    watch.look();
  }
  engine.flush();
  watch.look();
  return { hits: engine.reading().hits, events: watch.events, flips: watch.flips };
}

/** Every real recording with an answer, as recorded and in its variants. */
export function* standingReal(changes: TuningChanges): Generator<StandingRun> {
  if (!realRecordingsHere) return;
  for (const variant of VARIANTS)
    for (const recording of realRecordings()) {
      if (recording.class === 'no-answer') continue;
      const { a, b, sampleRate } = realCase(recording, variant);
      const run = watchStanding({ a, b, sampleRate, maxLagMs: NEAR_LAG_MS }, changes);
      yield { group: `real, ${variant}`, name: recording.file, ...run };
    }
}

/** Drawn cases on quoted seeds; grooves apart, and those apart in which nobody could tell a move. */
export function* standingDrawn(changes: TuningChanges): Generator<StandingRun> {
  for (let seed: number = QUOTED_SEEDS.from; seed < QUOTED_SEEDS.from + ROUNDS * TURN_LENGTH; seed++) {
    const group = groupOf(seed);
    if (MOVING.includes(group)) continue;
    const made = drawCase(seed);
    const run = watchStanding({ ...renderCase(made), maxLagMs: pairKind(made.kind).maxLagMs }, changes);
    const of = NO_TRUTH.includes(group) ? 'without an answer' : group === 'groove' ? 'grooves' : 'drum alone';
    yield { group: `drawn, ${of}`, name: `${seed} (${group}, ${made.kind})`, ...run };
  }
}

/** Every firm pair of the takes. */
export function* standingTakes(changes: TuningChanges): Generator<StandingRun> {
  if (!takesHere) return;
  for (const take of TAKES) {
    const done = new Set<string>();
    for (const { a, b } of takePairs(take)) {
      const name = `${a} – ${b}`;
      // two drums' pairs of the same microphones are one recording
      if (done.has(name)) continue;
      done.add(name);
      const { x, sampleRate } = takeTrack(take, a);
      const run = watchStanding({ a: x, b: takeTrack(take, b).x, sampleRate, maxLagMs: TAKES_LAG_MS }, changes);
      yield { group: `take, ${take}`, name, ...run };
    }
  }
}
