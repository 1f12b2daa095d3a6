/** The engine over a pair of channels, every sure answer of every drum. */

import { Engine } from '../../../src/dsp/engine';
import { type TuningChanges, tuned } from '../../../src/dsp/tuning/tuned';
import type { Answer } from '../../cases/judge';
import { type Flat, flat } from '../../support/readings/flat';

/** readings are looked at about every 25 ms, as on the screen */
const LOOK_SECONDS = 0.025;

/** A sure answer of one drum, and how sure. */
export interface OurAnswer extends Answer {
  /** the engine's number for the drum; is it the one that the reading is about? */
  drum: number | null;
  main: boolean;
  /** heard so far */
  hits: number;
  uncertaintySamples: number | null;
  sampleRate: number;
}

export interface OurOutcome {
  /** in order of time, at each look at which something was worked out anew */
  answers: OurAnswer[];
  /** those of the last reading, the main one first; empty: not sure */
  last: OurAnswer[];
  state: Flat['state'];
  reason: Flat['reason'];
  hits: number;
}

export function readOurs(
  a: Float32Array,
  b: Float32Array,
  sampleRate: number,
  options: { maxLagMs?: number; hits?: number; changes?: TuningChanges } = {},
): OurOutcome {
  const tuning = tuned(options.changes ?? {});
  const { maxLagMs } = options;
  const engine = new Engine(sampleRate, maxLagMs === undefined ? { tuning } : { tuning, maxLagMs });
  const block = Math.round(LOOK_SECONDS * sampleRate);
  const answers: OurAnswer[] = [];
  // hits leave the reading's list after a while, an answer may outlive them
  const used = new Map<number | null, number[]>();
  let changes = -1;
  let reading = flat(engine.reading());
  const look = (): boolean => {
    if (engine.changes === changes) return true;
    changes = engine.changes;
    const next = flat(engine.reading());
    if (options.hits !== undefined && next.hits > options.hits) return false;
    reading = next;
    answers.push(...sureAnswers(reading, used));
    return true;
  };
  let more = true;
  for (let i = 0; more && i < a.length; i += block) {
    engine.push(a.subarray(i, i + block), b.subarray(i, i + block));
    more = look();
  }
  if (more) {
    engine.flush();
    changes = -1;
    look();
  }
  return {
    answers,
    last: sureAnswers(reading, used),
    state: reading.state,
    reason: reading.reason,
    hits: reading.hits,
  };
}

/** The reading's own answer, then those of the other drums. */
function sureAnswers(r: Flat, usedBefore: Map<number | null, number[]>): OurAnswer[] {
  const others = r.drums.filter((drum) => drum.id !== r.drum);
  return [{ ...r, id: r.drum }, ...others].flatMap((answer): OurAnswer[] => {
    const { id, state, polarity, delaySamples, uncertaintySamples } = answer;
    if (state !== 'measured' || delaySamples === null || polarity === null) return [];
    const used = r.perHit.filter((hit) => hit.fate === 'used' && (hit.drum === id || id === null));
    if (used.length > 0) {
      usedBefore.set(
        id,
        used.map((hit) => hit.timeSeconds),
      );
    }
    return [
      {
        drum: id,
        main: id === r.drum,
        polarity,
        delaySamples,
        uncertaintySamples,
        sampleRate: r.sampleRate,
        atSeconds: r.streamSeconds,
        hitSeconds: usedBefore.get(id) ?? [],
        hits: r.hits,
      },
    ];
  });
}
