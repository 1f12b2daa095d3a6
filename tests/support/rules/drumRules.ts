/** As rules.ts, for what comes before and after one drum's pool: sorting, the kit's drums, uncertainty, state and reason. */
import { Decision } from '../../../src/dsp/delay/decision';
import { isUnlike, pushesBent, uncertaintyOf } from '../../../src/dsp/delay/uncertainty';
import { DRUM_SLOTS, DrumSorter } from '../../../src/dsp/drum/drumSorter';
import { heardFirst } from '../../../src/dsp/drum/nearDrum';
import { TwoDelays } from '../../../src/dsp/drum/twoDelays';
import { type HeardDrum, HeardDrums } from '../../../src/dsp/heardDrums';
import type { HitStore } from '../../../src/dsp/hit/hitStore';
import { LevelMeter } from '../../../src/dsp/input/levels';
import { judge, judgeDrum, Verdict } from '../../../src/dsp/out/verdict';
import { TUNING, type Tuning } from '../../../src/dsp/tuning';
import {
  FATES,
  type HitFate,
  REASONS,
  type ReadingReason,
  type ReadingState,
  STATES,
} from '../../../src/reading/codes';
import { addHit, fitOf, hitStore, type MadeFit, type MadeHit, poolOf, RATE, samplesOf, stackOf, usOf } from './rules';

export const DRUM_LIMITS = { slots: DRUM_SLOTS, apartUs: TUNING.drum.twoDelays.apartSeconds * 1e6 };

/** The hits go to drums one by one. */
export class Sorting {
  readonly store: HitStore = hitStore();
  private readonly sorter: DrumSorter;

  constructor(tuning: Tuning = TUNING) {
    this.sorter = new DrumSorter(RATE, tuning);
  }

  /** @returns the id of the drum that the hit was given to; 0: none */
  strike(hit: MadeHit): number {
    const s = addHit(this.store, hit);
    this.sorter.sort(this.store, this.store.count);
    const d = this.store.drum[s];
    if (d >= 0) this.sorter.split(this.store, d);
    return this.idOf(this.store.count);
  }

  /** The drum's delay jumped after the hit of this serial. @returns id of the drum that has the hits after it; 0: they are its own */
  jumped(id: number, upTo: number): number {
    const d = this.sorter.partBySound(this.store, this.sorter.find(id), upTo);
    return d < 0 ? 0 : this.sorter.id[d];
  }

  strikeAll(hits: readonly MadeHit[]): number[] {
    return hits.map((hit) => this.strike(hit));
  }

  /** id of the drum that this hit belongs to by now; 0: none */
  idOf(serial: number): number {
    const d = this.store.drum[this.store.slot(serial)];
    return d < 0 ? 0 : this.sorter.id[d];
  }

  /** Level above 1 kHz in A and in B, dB. */
  levels(id: number): [inA: number, inB: number] {
    const d = this.sorter.find(id);
    return [this.sorter.levelA(d), this.sorter.levelB(d)];
  }

  /** +1: A hears it first, −1: B, 0: both at once, or nobody knows */
  heardFirst(id: number): number {
    return heardFirst(this.store, this.sorter.find(id), TUNING.drum.heard.togetherSeconds * RATE);
  }

  hitsOf(id: number): number {
    return this.sorter.hits[this.sorter.find(id)];
  }

  knows(id: number): boolean {
    return this.sorter.find(id) >= 0;
  }

  led(id: number): boolean {
    return this.sorter.led(this.sorter.find(id));
  }

  centreHz(id: number): number {
    return this.sorter.centreHz[this.sorter.find(id)];
  }

  clear(): void {
    this.sorter.clear();
    this.store.clear();
  }
}

/** µs between two delays that the low ends of drum 0 arrive with by turns; NaN: there are not two */
export const betweenUs = (hits: readonly MadeHit[]): number => usOf(new TwoDelays(RATE).between(hitStore(hits), 0));

/** Drums that are heard hit by hit; each drum's best fit is none. */
export class DrumsFeed {
  readonly store: HitStore = hitStore();
  private readonly heard = new HeardDrums(RATE);

  hear(...hits: MadeHit[]): this {
    for (const hit of hits) {
      addHit(this.store, hit);
      if (hit.hasArrival === false) continue;
      const d = this.heard.arrive(this.store, this.store.count);
      if (d >= 0) this.decide(this.heard.evaluate(this.store, d));
      // as the engine does it before the next hit
      for (let stale = this.heard.takeStale(this.store); stale >= 0; stale = this.heard.takeStale(this.store))
        this.decide(stale);
    }
    return this;
  }

  private decide(d: number): void {
    const { pool, decision } = this.heard.each[d] as HeardDrum;
    decision.decide(this.store, pool, fitOf(), stackOf());
    this.heard.decided(this.store, d);
  }

  choose(id: number): this {
    this.heard.choose(this.store, id);
    return this;
  }

  clear(): void {
    this.store.clear();
    this.heard.clear(this.store);
  }

  /** id of the drum that the reading is about; 0: none */
  get shown(): number {
    return this.heard.shownAt < 0 ? 0 : this.heard.sorter.id[this.heard.shownAt];
  }
  /** hits in the running of the drum that is shown */
  get shownHits(): number {
    return this.heard.shown.decision.drumHits;
  }
  get chosen(): boolean {
    return this.heard.chosen;
  }
  /** it is open which of several drums is meant */
  get open(): boolean {
    return this.heard.open;
  }
  knows(id: number): boolean {
    return this.heard.sorter.find(id) >= 0;
  }
  get roll(): Pick<HeardDrums, 'length' | 'clippedA' | 'clippedB' | 'onlyA' | 'onlyB'> {
    const { length, clippedA, clippedB, onlyA, onlyB } = this.heard;
    return { length, clippedA, clippedB, onlyA, onlyB };
  }
  get fates(): HitFate[] {
    return Array.from({ length: this.store.count }, (_, i) => FATES[this.store.fate[i]]);
  }

  /** What the drum of this id says. */
  drum(id: number): { delayUs: number | null; sign: number; moved: boolean; hits: number } {
    const { decision } = this.heard.each[this.heard.sorter.find(id)] as HeardDrum;
    const { sign, moved, drumHits } = decision;
    return { delayUs: sign === 0 ? null : Math.round(usOf(decision.delay)), sign, moved, hits: drumHits };
  }
}

export interface MadeAnswer {
  atUs: number;
  sign?: number;
  spreadUs?: number;
  members?: number;
  noiseMoveUs?: number;
}

export interface Doubt {
  uncertaintyUs: number;
  unlike: boolean;
  bent: boolean;
}

/** How far an answer may be off, and what unlike microphones do to it. */
export function doubtOf(hits: readonly MadeHit[], answer: MadeAnswer, fit?: MadeFit): Doubt {
  const { store, pool } = poolOf(hits);
  const { atUs, sign = 1, spreadUs = 0, members = 8, noiseMoveUs = 0 } = answer;
  const answered = { delay: samplesOf(atUs), sign, spread: samplesOf(spreadUs), members };
  const f = fitOf(fit);
  return {
    uncertaintyUs: usOf(uncertaintyOf(RATE, store, pool, f, answered, samplesOf(noiseMoveUs))),
    unlike: isUnlike(store, pool),
    bent: pushesBent(RATE, store, pool, f, samplesOf(atUs)),
  };
}

type DrumKnown = Partial<
  Pick<
    Decision,
    'sign' | 'drumHits' | 'usable' | 'lowEndA' | 'lowEndB' | 'moved' | 'hidden' | 'following' | 'contradiction'
  >
>;
/** an input: `heard` now, `silent` for two seconds, or `nothing` yet, for less */
type Heard = 'heard' | 'silent' | 'nothing';

/** What the engine knows; a measured drum of eight hits, two inputs that are heard, a minute after the start unless told. */
export interface MadeKnown {
  seconds?: number;
  zeroSeconds?: number;
  equalSeconds?: number;
  ended?: boolean;
  copyWanted?: boolean;
  a?: Heard;
  b?: Heard;
  sameSignal?: boolean;
  /** hits since the start, and of the newest of whatever drum: how many, clipped, on one side only */
  hits?: number;
  newest?: number;
  clippedA?: number;
  clippedB?: number;
  onlyA?: number;
  onlyB?: number;
  /** it is open which of several drums is meant */
  open?: boolean;
  drum?: DrumKnown;
}

export interface Judged {
  state: ReadingState;
  reason: ReadingReason;
  measured: boolean;
  following: boolean;
  gap: boolean;
  bitIdentical: boolean;
}

const METER_RATE = 1000;

function meterOf(heard: Heard): LevelMeter {
  const meter = new LevelMeter(METER_RATE);
  const x = new Float64Array(heard === 'silent' ? 2 * METER_RATE : METER_RATE / 2);
  if (heard === 'heard') x.fill(0.1);
  meter.run(x, x, x.length);
  return meter;
}

const drumOf = (drum: DrumKnown = {}): DrumKnown => ({ sign: 1, drumHits: 8, usable: 8, ...drum });

const judgedOf = (v: Verdict): Judged => {
  const { measured, following, gap, bitIdentical } = v;
  return { state: STATES[v.state], reason: REASONS[v.reason], measured, following, gap, bitIdentical };
};

export const verdictAnew = (): Verdict => new Verdict();

/** @param v what is filled in */
export function verdictOf(known: MadeKnown, v = verdictAnew()): Judged {
  const { hits = 8, newest = hits, clippedA = 0, clippedB = 0, onlyA = 0, onlyB = 0 } = known;
  const heard = new HeardDrums(RATE);
  Object.assign(heard, { length: newest, clippedA, clippedB, onlyA, onlyB, open: known.open ?? false });
  Object.assign(heard.shown.decision, drumOf(known.drum));
  heard.shown.sum.sameSignal = known.sameSignal ?? false;
  const store = hitStore();
  for (let i = 0; i < hits; i++) addHit(store);
  v.ended = known.ended ?? false;
  v.copyWanted = known.copyWanted ?? false;
  const { seconds = 60, zeroSeconds = 0, equalSeconds = 0, a = 'heard', b = 'heard' } = known;
  const sources = { store, heard, levelA: meterOf(a), levelB: meterOf(b) };
  judge(v, sources, seconds * RATE, zeroSeconds * RATE, equalSeconds * RATE, RATE);
  return judgedOf(v);
}

/** What is said of one drum of the list. */
export function drumVerdictOf(drum: DrumKnown, newest: number, v = verdictAnew()): Judged {
  return judgedOf(judgeDrum(v, Object.assign(new Decision(RATE), drumOf(drum)), newest));
}
