/** What speaks for each candidate of each drum, and whether it is right: what the weights of `likelyTuning` are fitted to. */
import type { AttackFit } from '../../../src/dsp/delay/attackFit';
import { EVIDENCE } from '../../../src/dsp/delay/likely/evidence';
import { Likelihood } from '../../../src/dsp/delay/likely/likelihood';
import type { Stack } from '../../../src/dsp/delay/stack';
import { Engine } from '../../../src/dsp/engine';
import type { HeardDrum, HeardDrums } from '../../../src/dsp/heardDrums';
import type { HitStore } from '../../../src/dsp/hit/hitStore';
import { METHOD } from '../../../src/reading/codes';
import { type CaseJob, type CaseSound, soundOf } from '../cases/caseJob';

const BLOCK_SECONDS = 0.025;
/** a drum is looked at when it has so many hits, and the last of these so many times */
const HITS = [4, 6, 8, 12, 16];
const TIMES_AT_MOST = 3;
const GRAVE_CM = 5;

export interface Candidate {
  /** as in EVIDENCE */
  evidence: number[];
  delaySamples: number;
  sign: number;
  right: boolean;
  /** wrong by more than 5 cm, or of the other polarity */
  grave: boolean;
}

/** A drum's candidates at one moment. */
export interface Choice {
  group: string;
  hits: number;
  sampleRate: number;
  /** the witnesses leave it open */
  open: boolean;
  /** what they answer; null: nothing */
  rules: { right: boolean; grave: boolean } | null;
  candidates: Candidate[];
}

/** What is asked of the engine's inside. */
export interface Inside {
  store: HitStore;
  heard: HeardDrums;
  estimator: { together: { fit: AttackFit; stack: Stack } };
  startFrame: number;
}

/** All drums of one recording. */
export function choicesOf(job: CaseJob): Choice[] {
  const group = job.corpus === 'kit' ? job.group : `${job.recording.file} ${job.variant}`;
  return choicesIn(soundOf(job), group);
}

function choicesIn({ a, b, sampleRate, options, judge }: CaseSound, group: string): Choice[] {
  const engine = new Engine(sampleRate, { maxLagMs: options.maxLagMs });
  const inside = engine as unknown as Inside;
  const likelihood = new Likelihood(sampleRate);
  const choices: Choice[] = [];
  const times = new Map<string, number>();
  const look = (d: number): void => {
    const drum = inside.heard.each[d] as HeardDrum;
    const hits = drum.pool.drumHits;
    const key = `${inside.heard.sorter.id[d]} ${hits}`;
    const seen = times.get(key) ?? 0;
    if (!HITS.includes(hits) || seen >= (hits === HITS.at(-1) ? TIMES_AT_MOST : 1)) return;
    times.set(key, seen + 1);
    const { fit, stack } = inside.estimator.together;
    likelihood.begin();
    while (!likelihood.work(inside.store, drum.pool, fit, stack));
    const { decision, pool } = drum;
    const hitSeconds = Array.from(
      pool.drumSlots.subarray(0, hits),
      (s) => ((inside.store.anchor[s] as number) - inside.startFrame) / sampleRate,
    );
    const n = EVIDENCE.length;
    const judged = (delaySamples: number, sign: number): { right: boolean; grave: boolean } => {
      const atSeconds = (hitSeconds.at(-1) as number) + 0.1;
      const polarity = sign > 0 ? 'same' : 'inverted';
      const { right, polarityRight, errorCm } = judge.judge({ polarity, delaySamples, atSeconds, hitSeconds });
      return { right, grave: !right && !(polarityRight && Math.abs(errorCm) <= GRAVE_CM) };
    };
    const candidates = Array.from({ length: likelihood.candidates }, (_, c): Candidate => {
      const delaySamples = likelihood.at[c] as number;
      const sign = likelihood.way[c] as number;
      const evidence = Array.from(likelihood.evidence.subarray(c * n, (c + 1) * n));
      return { evidence, delaySamples, sign, ...judged(delaySamples, sign) };
    });
    const undecided = decision.sign === 0 || decision.method === METHOD.likeliest;
    const isAnswer = !undecided && !decision.following && !decision.lowEndA && !decision.lowEndB;
    const rules = isAnswer ? judged(decision.delay, decision.sign) : null;
    const open = undecided && !decision.following && !decision.moved && !decision.lowEndA && !decision.lowEndB;
    choices.push({ group, hits, sampleRate, open, rules, candidates });
  };
  const { heard } = inside;
  const decided = heard.decided.bind(heard);
  heard.decided = (store, d, common) => {
    decided(store, d, common);
    look(d);
  };
  const block = Math.round(BLOCK_SECONDS * sampleRate);
  for (let i = 0; i < a.length; i += block) {
    engine.push(a.subarray(i, i + block), b.subarray(i, i + block));
    if (options.hits !== undefined && inside.store.count > options.hits) break;
  }
  engine.flush();
  return choices;
}
