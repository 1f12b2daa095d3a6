/** A real recording in which B is moved, or its polarity switch pressed, between two hits. */
import { readFileSync } from 'node:fs';
import { Engine } from '../../../src/dsp/engine';
import { type TuningChanges, tuned } from '../../../src/dsp/tuning/tuned';
import { readWav } from '../../../src/files/readWav';
import { answerOf, type Said } from '../../../src/reading/reading';
import { type RealRecording, realPath } from '../../support/sound/realRecordings';
import { shift } from '../../support/sound/resample';
import { LOOK_SECONDS } from './standing';

const SOUND_METRES_PER_SECOND = 343.2;
/** the cut lies where both are quietest, so long before the hit, s */
const CUT_FROM_SECONDS = 0.15;
const CUT_TO_SECONDS = 0.02;
/** one fades into the other in this time, s */
const FADE_SECONDS = 0.004;
/** beyond the tolerance of the reference, samples */
const EXTRA_SAMPLES = 2;
/** hits after the knock that are waited for */
export const HITS_AFTER = 8;

export interface Knock {
  name: string;
  /** path of B, cm further */
  cm: number;
  inverts: boolean;
}
export const KNOCKS: readonly Knock[] = [
  { name: '+2 cm', cm: 2, inverts: false },
  { name: '−2 cm', cm: -2, inverts: false },
  { name: '+4 cm', cm: 4, inverts: false },
  { name: 'B inverted', cm: 0, inverts: true },
];

export interface Recorded {
  recording: RealRecording;
  a: Float32Array;
  b: Float32Array;
  sampleRate: number;
  /** where its hits begin, s */
  hits: number[];
  /** B later by so many cm of path, as it was asked for */
  later: Map<number, ArrayLike<number>>;
}

/** How it was noticed, and by which hit after the knock. */
export interface Noticed {
  how: 'moved' | 'shown' | 'unnoticed' | 'not measured before';
  hit: number;
  /** a reading was shown that is neither the old place nor the new one */
  wrong: boolean;
  /** what was said after the last hit waited for */
  end: string;
}

export const samplesOf = (cm: number, sampleRate: number): number => (sampleRate * cm) / 100 / SOUND_METRES_PER_SECOND;

/** The recording, and when the engine hears its hits. */
export function recorded(recording: RealRecording): Recorded {
  const wav = readWav(readFileSync(realPath(recording.file)));
  const [a, b, sampleRate] = [wav.read(0), wav.read(1), wav.sampleRate];
  const engine = new Engine(sampleRate);
  const at = new Map<number, number>();
  const block = Math.round(LOOK_SECONDS * sampleRate);
  for (let i = 0; i < a.length; i += block) {
    engine.push(a.subarray(i, i + block), b.subarray(i, i + block));
    for (const { serial, timeSeconds } of engine.reading().perHit) at.set(serial, timeSeconds);
  }
  return { recording, a, b, sampleRate, hits: [...at.values()].sort((p, q) => p - q), later: new Map([[0, b]]) };
}

/** B as it is up to hit k (from 0), then otherwise. @returns it, and the sample at which it changes */
export function knockedB(it: Recorded, knock: Knock, k: number): { b: Float32Array; cut: number } {
  const { a, b, sampleRate, hits, later } = it;
  const after = later.get(knock.cm) ?? shift(b, samplesOf(knock.cm, sampleRate));
  later.set(knock.cm, after);
  const cut = quietest(a, b, sampleRate, hits[k] as number);
  const fade = Math.round(FADE_SECONDS * sampleRate);
  const gain = knock.inverts ? -1 : 1;
  const out = b.map((v, i) => {
    const share = Math.max(0, Math.min(1, (i - cut) / fade + 0.5));
    return (1 - share) * v + share * gain * (after[i] as number);
  });
  return { b: out, cut };
}

/** Middle of the quietest stretch before the hit, both channels brought to one level. */
export function quietest(a: Float32Array, b: Float32Array, sampleRate: number, hitSeconds: number): number {
  const n = Math.round(FADE_SECONDS * sampleRate);
  const [gainA, gainB] = [a, b].map((x) => 1 / x.reduce((most, v) => Math.max(most, Math.abs(v)), 1e-9)) as [
    number,
    number,
  ];
  const from = Math.max(0, Math.round((hitSeconds - CUT_FROM_SECONDS) * sampleRate));
  const to = Math.round((hitSeconds - CUT_TO_SECONDS) * sampleRate);
  let best = from;
  let least = Number.POSITIVE_INFINITY;
  for (let i = from; i + n <= to; i += Math.max(1, n >> 2)) {
    let sum = 0;
    for (let j = i; j < i + n; j++) sum += (gainA * (a[j] as number)) ** 2 + (gainB * (b[j] as number)) ** 2;
    if (sum >= least) continue;
    least = sum;
    best = i + (n >> 1);
  }
  return best;
}

/** Of what is said after a knock: that something moved, the new place, the old one still, or neither. */
export function saysOf(
  said: Said,
  before: Pick<Said, 'delaySamples' | 'polarity'>,
  knock: Knock,
  { recording, sampleRate }: Pick<Recorded, 'recording' | 'sampleRate'>,
): 'moved' | 'shown' | 'old' | 'wrong' | 'open' {
  if (said.state === 'following' || said.reason === 'moved') return 'moved';
  if (said.state !== 'measured') return 'open';
  const by = samplesOf(knock.cm, sampleRate);
  const truth = recording.delaySamples as number;
  const near = (samples: number): boolean =>
    Math.abs(said.delaySamples - samples) <= (recording.toleranceSamples as number) + EXTRA_SAMPLES;
  if (knock.inverts) return !near(truth) ? 'wrong' : said.polarity !== before.polarity ? 'shown' : 'old';
  if (said.polarity !== before.polarity) return 'wrong';
  // 2 cm lie within many a tolerance: the new place is shown where the delay went more than half of the way
  const went = (said.delaySamples - (before.delaySamples as number)) / by;
  if (went > 0.5) return near(truth + by) ? 'shown' : 'wrong';
  return near(truth) ? 'old' : 'wrong';
}

/** @param k the first hit after the knock, from 0 */
export function noticed(it: Recorded, knock: Knock, k: number, changes: TuningChanges): Noticed {
  const { a, sampleRate } = it;
  const { b, cut } = knockedB(it, knock, k);
  const engine = new Engine(sampleRate, { tuning: tuned(changes) });
  const block = Math.round(LOOK_SECONDS * sampleRate);
  let before: Said | null = null;
  let heardBefore = 0;
  let changed = -1;
  const found: Noticed = { how: 'unnoticed', hit: Number.NaN, wrong: false, end: '' };
  for (let i = 0; i < a.length; i += block) {
    engine.push(a.subarray(i, i + block), b.subarray(i, i + block));
    if (engine.changes === changed) continue;
    changed = engine.changes;
    const reading = engine.reading();
    const said = answerOf(reading);
    // until the first hit after the knock is known
    if (i + block <= cut || reading.hits === heardBefore) {
      before = said;
      heardBefore = reading.hits;
      continue;
    }
    if (before?.state !== 'measured') return { ...found, how: 'not measured before', end: before?.reason ?? '' };
    const hit = reading.hits - heardBefore;
    if (hit > HITS_AFTER) break;
    const says = saysOf(said, before, knock, it);
    found.end = says === 'open' ? said.reason : says;
    if (says === 'wrong') found.wrong = true;
    if (found.how === 'unnoticed' && (says === 'moved' || says === 'shown')) Object.assign(found, { how: says, hit });
  }
  return found;
}
