/** A reading with what it says, its sum and its inputs' state side by side: tests ask for one of them at a time. */
import {
  type Answer,
  answerOf,
  type InputFault,
  type InputsReading,
  noAnswer,
  type Reading,
  type Said,
  type SumReading,
} from '../../../src/reading/reading';

type Spread<T> = { [K in T extends unknown ? keyof T : never]: T extends Record<K, infer V> ? V : never };
export type Flat = Omit<Reading, 'inputs' | 'sum' | 'waiting'> &
  Omit<Spread<Said>, 'hits'> &
  SumReading &
  Omit<InputsReading, 'fault'>;

export function flat(reading: Reading): Flat {
  const { inputs, sum, waiting: _, ...rest } = reading;
  const { hits: _ofDrum, ...said } = answerOf(reading);
  const { fault: _fault, ...state } = inputs;
  return { ...rest, ...said, ...sum, ...state };
}

const FACTS = { levelADbfs: null, levelBDbfs: null, centreHz: null };

/**
 * The reading that such fields describe. They are the answer of the drum that is named; of a drum of its own where none is
 * and there is an arrival; else what is said while no drum is shown.
 */
export function nested(f: Flat): Reading {
  const { sampleRate, streamSeconds, gauge, hits, hitsNeeded, drumChosen, curve, trace, perHit } = f;
  const {
    correlation,
    bands,
    fuller,
    fullerDb,
    fullerLowHz,
    fullerHighHz,
    lowOctaves,
    levelDifferenceDb,
    spectrum,
    now,
    near,
    here,
  } = f;
  const { a, b, gap, bitIdentical, offsetSamples, noise } = f;
  const arrived = f.state === 'measured' || f.state === 'following';
  const drum = f.drum ?? (arrived && f.drums.length === 0 ? 1 : null);
  const known = f.drums.find(({ id }) => id === drum);
  const shown = drum === null ? null : { ...FACTS, ...known, id: drum, ...answered(f, known?.hits ?? hits) };
  const drums = f.drums.map((each) => (each === known && shown ? shown : each));
  const counts = { hits, hitsPooled: f.hitsPooled, hitsUsed: f.hitsUsed, agreement: f.agreement };
  return {
    sampleRate,
    streamSeconds,
    inputs: { a, b, gap, bitIdentical, offsetSamples, noise, fault: faultOf(f) },
    gauge,
    hits,
    hitsNeeded,
    drums: shown && !known ? [...drums, shown] : drums,
    drum,
    drumChosen,
    waiting: { ...noAnswer(f.reason, counts), state: f.state === 'unclear' ? 'unclear' : 'listening' },
    sum: {
      correlation,
      bands,
      fuller,
      fullerDb,
      fullerLowHz,
      fullerHighHz,
      lowOctaves,
      levelDifferenceDb,
      spectrum,
      now,
      near,
      here,
    },
    curve,
    trace,
    perHit,
  };
}

/** The fields as a drum's answer. @throws Error for an arrival without delay or polarity: no reading can say that */
function answered(f: Flat, hits: number): Answer {
  const { state, reason, hitsPooled, hitsUsed, agreement, polarity, delaySamples } = f;
  const { spreadSamples, uncertaintySamples, method } = f;
  const counts = { hits, hitsPooled, hitsUsed, agreement };
  if (state === 'measured') {
    if (polarity === null || delaySamples === null) throw new Error('measured needs a polarity and a delay');
    return { ...counts, state, reason, polarity, delaySamples, spreadSamples, uncertaintySamples, method };
  }
  const nothing = noAnswer(reason, counts);
  if (state === 'following') return { ...nothing, state, delaySamples };
  return { ...nothing, state: state === 'listening' ? 'listening' : 'unclear' };
}

function faultOf({ state, reason }: Flat): InputFault | null {
  if (state === 'no-signal' || state === 'same-signal' || state === 'overloaded') return { state, reason };
  return reason === 'no-common-signal' ? { state: 'unclear', reason } : null;
}

/** A reading with some of it otherwise. */
export const changed = (reading: Reading, fields: Partial<Flat>): Reading => nested({ ...flat(reading), ...fields });
