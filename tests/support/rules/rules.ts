/**
 * Made-up numbers for the rules of src/dsp, with no audio: hits put into a store by hand, and every object that judges them
 * built here, so that a test says only what was heard. Delays are µs here, samples inside.
 */
import type { AttackFit } from '../../../src/dsp/delay/attackFit';
import { Decision } from '../../../src/dsp/delay/decision';
import { Pool } from '../../../src/dsp/delay/pool';
import type { Stack } from '../../../src/dsp/delay/stack';
import { FINGERPRINT } from '../../../src/dsp/hit/fingerprint';
import { HitStore, STORED_HITS } from '../../../src/dsp/hit/hitStore';
import { TUNING, type Tuning } from '../../../src/dsp/tuning';
import { FATES, type HitFate, METHODS, type Method } from '../../../src/reading/codes';
import { HITS_NEEDED, POOL_HITS } from '../../../src/reading/limits';

export const RATE = 48000;
/** between two hits, s */
export const SPACING_SECONDS = 0.5;

/** the limits that the rules name */
export const LIMITS = {
  hitsNeeded: HITS_NEEDED,
  usableQuality: TUNING.hit.arrival.usableQuality,
  agreeingHits: TUNING.delay.motion.agreeingHits,
  poolHits: POOL_HITS,
  storedHits: STORED_HITS,
  fingerprint: FINGERPRINT,
};

export const samplesOf = (us: number): number => us * 1e-6 * RATE;
export const usOf = (samples: number): number => (samples / RATE) * 1e6;

/** One hit as the analysis leaves it; what is left out is of a clean hit of drum 0 with a first arrival only. */
export interface MadeHit {
  /** first arrivals: NaN: none; product of signs; the smaller quality; whether noise set a threshold */
  delayUs?: number;
  sign?: number;
  quality?: number;
  hidden?: boolean;
  /** first push of the low end; alone: nothing higher and no softer push came before it */
  lowUs?: number;
  lowSign?: number;
  lowAlone?: boolean;
  /** bit 1: noise set the threshold of A, bit 2: of B */
  noiseBound?: number;
  /** the single hit's correlation; opposite peak over peak */
  waveUs?: number;
  waveSign?: number;
  rival?: number;
  /** dB; levels in dBFS */
  tiltA?: number;
  tiltB?: number;
  snrDb?: number;
  levelA?: number;
  levelB?: number;
  riseUs?: number;
  drum?: number;
  highLed?: boolean;
  mixed?: boolean;
  /** bit 1: A, bit 2: B */
  clipped?: number;
  /** +1: only A heard it, −1: only B */
  oneSided?: number;
  hasArrival?: boolean;
  /** dB, A's eight bands, then B's */
  print?: readonly number[];
}

/** Put a hit into the store; they come two a second. @returns its slot */
export function addHit(store: HitStore, hit: MadeHit = {}): number {
  const s = store.add((store.count + 1) * SPACING_SECONDS * RATE);
  const none = Number.isNaN(hit.delayUs ?? 1000);
  store.hasArrival[s] = hit.hasArrival === false ? 0 : 1;
  store.pickDelay[s] = samplesOf(hit.delayUs ?? 1000);
  store.pickSign[s] = hit.sign ?? (none ? 0 : 1);
  store.pickQuality[s] = hit.quality ?? (none ? 0 : 16);
  store.pickHidden[s] = hit.hidden ? 1 : 0;
  store.lowDelay[s] = samplesOf(hit.lowUs ?? Number.NaN);
  store.lowSign[s] = hit.lowSign ?? (hit.lowUs === undefined ? 0 : 1);
  store.lowAlone[s] = (hit.lowAlone ?? hit.lowUs !== undefined) ? 1 : 0;
  store.noiseBound[s] = hit.noiseBound ?? 0;
  store.waveDelay[s] = samplesOf(hit.waveUs ?? Number.NaN);
  store.waveSign[s] = hit.waveSign ?? (hit.waveUs === undefined ? 0 : 1);
  store.waveRival[s] = hit.rival ?? (hit.waveUs === undefined ? 1 : 0.2);
  store.tiltA[s] = hit.tiltA ?? 0;
  store.tiltB[s] = hit.tiltB ?? 0;
  store.snrDb[s] = hit.snrDb ?? 40;
  store.levelA[s] = hit.levelA ?? -10;
  store.levelB[s] = hit.levelB ?? -16;
  store.riseDifference[s] = samplesOf(hit.riseUs ?? 0);
  store.drum[s] = hit.drum ?? 0;
  store.highLed[s] = hit.highLed ? 1 : 0;
  store.mixed[s] = hit.mixed ? 1 : 0;
  store.clipped[s] = hit.clipped ?? 0;
  store.oneSided[s] = hit.oneSided ?? 0;
  for (let i = 0; i < FINGERPRINT; i++) store.print[s * FINGERPRINT + i] = hit.print?.[i] ?? 0;
  return s;
}

/** The fingerprint that has each of these levels in two bands, one beside the other. */
export const twice = (print: readonly number[]): number[] => print.flatMap((dB) => [dB, dB]);

export const times = (n: number, hit: MadeHit = {}): MadeHit[] => Array.from({ length: n }, () => hit);
/** hits whose first arrivals have these delays, µs */
export const arrivals = (...delaysUs: number[]): MadeHit[] => delaysUs.map((delayUs) => ({ delayUs }));
/** a hit in which no first push can be seen */
export const NO_PUSH: MadeHit = { delayUs: Number.NaN };

export function hitStore(hits: readonly MadeHit[] = []): HitStore {
  const store = new HitStore();
  for (const hit of hits) addHit(store, hit);
  return store;
}

export interface MadePool {
  store: HitStore;
  pool: Pool;
  /** another hit comes in, and its drum is judged anew */
  next: (hit: MadeHit) => Pool;
}

/** @param led the drum's low end begins its hits */
export function poolOf(hits: readonly MadeHit[], led = false, drum = 0, tuning: Tuning = TUNING): MadePool {
  const store = new HitStore();
  const pool = new Pool(RATE, tuning);
  const next = (hit: MadeHit): Pool => {
    addHit(store, hit);
    if ((hit.drum ?? 0) === drum) pool.evaluate(store, drum, led);
    return pool;
  };
  for (const hit of hits) next(hit);
  return { store, pool, next };
}

type FitFields = Pick<AttackFit, 'delay' | 'sign' | 'agree' | 'runnerUp' | 'members'>;
type StackFields = Pick<Stack, 'delay' | 'sign' | 'members' | 'spread' | 'noiseMove' | 'bound' | 'inStack'>;

/** The best fit of all attacks: a sure one of eight hits unless told; µs. */
export interface MadeFit {
  atUs: number;
  sign?: number;
  agree?: number;
  runnerUp?: number;
  members?: number;
}

export function fitOf(fit?: MadeFit): AttackFit {
  const fields: FitFields = fit
    ? {
        delay: samplesOf(fit.atUs),
        sign: fit.sign ?? 1,
        agree: fit.agree ?? 1,
        runnerUp: fit.runnerUp ?? 0.1,
        members: fit.members ?? 8,
      }
    : { delay: Number.NaN, sign: 0, agree: 0, runnerUp: 1, members: 0 };
  return fields as AttackFit;
}

/** The hits' average; all of them are in it unless told; µs. */
export interface MadeStack {
  atUs: number;
  sign?: number;
  members: number;
  spreadUs?: number;
  noiseMoveUs?: number;
  bound?: boolean;
}

export function stackOf(stack?: MadeStack): Stack {
  const fields: StackFields = {
    delay: samplesOf(stack?.atUs ?? Number.NaN),
    sign: stack ? (stack.sign ?? 1) : 0,
    members: stack?.members ?? 0,
    spread: samplesOf(stack?.spreadUs ?? (stack ? 0 : Number.NaN)),
    noiseMove: samplesOf(stack?.noiseMoveUs ?? (stack ? 0 : Number.NaN)),
    bound: stack?.bound ?? false,
    inStack: Uint8Array.from({ length: POOL_HITS }, (_, i) => (i < (stack?.members ?? 0) ? 1 : 0)),
  };
  return fields as Stack;
}

/** What a drum's hits say, as a person would put it. */
export interface Said {
  /** null: no answer */
  method: Method | null;
  sign: number;
  /** while there is an answer, or a microphone is followed */
  delayUs: number | null;
  /** null: not known */
  uncertaintyUs: number | null;
  agreement: number;
  contradiction: boolean;
  following: boolean;
  moved: boolean;
  hidden: boolean;
  fates: HitFate[];
  decision: Decision;
}

export interface Heard {
  hits: readonly MadeHit[];
  fit?: MadeFit;
  stack?: MadeStack;
  tuning?: Tuning;
}

export function decisionOf({ hits, fit, stack, tuning = TUNING }: Heard): Said {
  const { store, pool } = poolOf(hits, false, 0, tuning);
  return decided(store, pool, fit, stack, decisionAnew(tuning));
}

export const decisionAnew = (tuning: Tuning = TUNING): Decision => new Decision(RATE, tuning);

export function decided(
  store: HitStore,
  pool: Pool,
  fit?: MadeFit,
  stack?: MadeStack,
  decision = decisionAnew(),
): Said {
  decision.decide(store, pool, fitOf(fit), stackOf(stack));
  const { sign, following } = decision;
  return {
    method: sign === 0 ? null : (METHODS[decision.method] ?? null),
    sign,
    delayUs: sign !== 0 || following ? usOf(decision.delay) : null,
    uncertaintyUs: sign === 0 || Number.isNaN(decision.uncertainty) ? null : usOf(decision.uncertainty),
    agreement: decision.agreement,
    contradiction: decision.contradiction,
    following,
    moved: decision.moved,
    hidden: decision.hidden,
    fates: Array.from({ length: store.count }, (_, i) => FATES[store.fate[store.slot(i + 1)] as number] as HitFate),
    decision,
  };
}
