/** The engine over a pair of channels, every reading judged. */
import { Engine } from '../../src/dsp/engine';
import type { Reading } from '../../src/dsp/reading';
import type { Answer } from '../cases/judge';

/** a reading about every 25 ms, as on the screen */
const LOOK_SECONDS = 0.025;

/** A sure answer, and how sure. */
export interface OurAnswer extends Answer {
  hits: number;
  uncertaintySamples: number | null;
}

/** Sure answers in order of time; the last reading's state at the end. */
export interface OurOutcome {
  answers: OurAnswer[];
  /** null: the last reading isn't sure */
  last: OurAnswer | null;
  state: Reading['state'];
  reason: Reading['reason'];
  hits: number;
}

export function readOurs(
  a: Float32Array,
  b: Float32Array,
  sampleRate: number,
  options: { maxLagMs?: number; hits?: number } = {},
): OurOutcome {
  const engine = new Engine(sampleRate, options.maxLagMs === undefined ? {} : { maxLagMs: options.maxLagMs });
  const block = Math.round(LOOK_SECONDS * sampleRate);
  const answers: OurAnswer[] = [];
  let changes = -1;
  let reading = engine.reading();
  const look = (): boolean => {
    if (engine.changes === changes) return true;
    changes = engine.changes;
    const next = engine.reading();
    if (options.hits !== undefined && next.hits > options.hits) return false;
    reading = next;
    const answer = sureAnswer(reading);
    if (answer) answers.push(answer);
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
  return { answers, last: sureAnswer(reading), state: reading.state, reason: reading.reason, hits: reading.hits };
}

function sureAnswer(r: Reading): OurAnswer | null {
  if (r.state !== 'measured' || r.delaySamples === null || r.polarity === null) return null;
  return {
    polarity: r.polarity,
    delaySamples: r.delaySamples,
    atSeconds: r.streamSeconds,
    hitSeconds: r.perHit.filter((hit) => hit.fate === 'used' && hit.drum === r.drum).map((hit) => hit.timeSeconds),
    hits: r.hits,
    uncertaintySamples: r.uncertaintySamples,
  };
}
