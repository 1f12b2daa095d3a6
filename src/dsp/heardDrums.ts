/** The drums that are heard, a pool and an answer for each, and which of them the reading is about. */

import { FATE } from '../reading/codes';
import { Decision } from './delay/decision';
import { Pool } from './delay/pool';
import { Standing } from './delay/standing';
import { DRUM_SLOTS, DrumSorter, NO_DRUM } from './drum/drumSorter';
import { NearDrum } from './drum/nearDrum';
import type { HitAnalyser } from './hit/hitAnalyser';
import type { HitStore } from './hit/hitStore';
import { DrumSum } from './sum/drumSum';
import { TUNING, type Tuning } from './tuning';

/** What the kept hits have in common at each lag; see HitAnalyser. */
type CommonLags = Pick<HitAnalyser, 'lags' | 'lagFactor'>;

/** One drum's own. */
export class HeardDrum {
  readonly pool: Pool;
  readonly decision: Decision;
  readonly standing: Standing;
  readonly sum: DrumSum;
  /** it has had an answer since it began */
  answered = false;
  /** the answer before the newest: samples and sign; NaN: none */
  stood = Number.NaN;
  stoodSign = 0;

  constructor(sampleRate: number, tuning: Tuning) {
    this.pool = new Pool(sampleRate, tuning);
    this.decision = new Decision(sampleRate, tuning);
    this.standing = new Standing(sampleRate, tuning);
    this.sum = new DrumSum(tuning);
  }
}

export class HeardDrums {
  readonly sorter: DrumSorter;
  /** DRUM_SLOTS drums, and one that never has a hit */
  readonly each: HeardDrum[] = [];
  /** what was read of the pair before, samples: expected of the drum that a microphone stands at, or a person chose; sign 0: nothing */
  private knownDelay = Number.NaN;
  private knownSign = 0;
  private knownUncertainty = Number.NaN;
  /** the drum the reading is about */
  shown: HeardDrum;
  /** its number; NO_DRUM: none yet */
  shownAt = NO_DRUM;
  /** the newest hits, and how many of them clipped or were heard on one side only */
  length = 0;
  clippedA = 0;
  clippedB = 0;
  onlyA = 0;
  onlyB = 0;
  private chosenId = 0;
  private shownId = 0;
  private readonly near: NearDrum;
  /** nobody chose, several drums are heard, and neither microphone is clearly nearer to one of them */
  open = false;
  /** 1: a hit of it counts no more */
  private readonly stale = new Uint8Array(DRUM_SLOTS + 1);
  /** newest hits, of whatever drum, by which an input is judged */
  private readonly newestHits: number;
  private readonly movedSamples: number;
  private readonly hitsNeeded: number;
  /** hits that something high began are left out where the low end leads */
  private readonly twoDrums: boolean;

  constructor(sampleRate: number, tuning: Tuning = TUNING) {
    this.newestHits = tuning.drum.heard.newestHits;
    this.movedSamples = tuning.drum.heard.movedSeconds * sampleRate;
    this.hitsNeeded = tuning.delay.hitsNeeded;
    this.twoDrums = tuning.parts.twoDrums;
    this.sorter = new DrumSorter(sampleRate, tuning);
    this.near = new NearDrum(this.sorter, sampleRate, tuning);
    for (let d = 0; d <= DRUM_SLOTS; d++) this.each.push(new HeardDrum(sampleRate, tuning));
    this.shown = this.each[DRUM_SLOTS] as HeardDrum;
  }

  /** a person chose the drum */
  get chosen(): boolean {
    return this.chosenId > 0;
  }

  /** A hit's arrival is known: give it to its drum. Real-time safe: yes. @returns the drum's number, or NO_DRUM */
  arrive(store: HitStore, serial: number): number {
    const s = store.slot(serial);
    const begun = this.sorter.sort(store, serial);
    if (begun >= 0) this.begin(begun);
    const d = store.drum[s] as number;
    const twin = d >= 0 ? this.sorter.split(store, d) : NO_DRUM;
    if (twin >= 0) {
      this.begin(d);
      this.begin(twin);
    }
    if (store.dropped[s]) store.fate[s] = FATE['dropped-audio'];
    else if (store.clipped[s]) store.fate[s] = FATE.clipped;
    else if (store.oneSided[s]) store.fate[s] = FATE['one-side-only'];
    else if (store.mixed[s]) store.fate[s] = FATE['two-drums'];
    else if ((store.drum[s] as number) < 0) store.fate[s] = FATE['other-drum'];
    this.callRoll(store);
    this.show(store);
    return store.drum[s] as number;
  }

  /** A hit of drum d counts no more: what was said with it has to be worked out anew. Real-time safe: yes. */
  drop(store: HitStore, slot: number, d: number): void {
    const { sorter } = this;
    store.drum[slot] = NO_DRUM;
    sorter.hits[d] = (sorter.hits[d] as number) - 1;
    if (sorter.hits[d] === 0) {
      sorter.id[d] = 0;
      this.begin(d);
    } else this.stale[d] = 1;
    this.callRoll(store);
    this.show(store);
  }

  /** A drum that has to be worked out anew, with its pool as it is now. Real-time safe: yes. @returns NO_DRUM: none has */
  takeStale(store: HitStore): number {
    for (let d = 0; d < DRUM_SLOTS; d++) {
      if (!this.stale[d]) continue;
      this.stale[d] = 0;
      const { pool, decision, standing, sum } = this.each[d] as HeardDrum;
      this.evaluate(store, d);
      if (pool.drumHits > 0) return d;
      decision.clear();
      standing.clear();
      sum.clear();
    }
    return NO_DRUM;
  }

  private begin(d: number): void {
    this.stale[d] = 0;
    const drum = this.each[d] as HeardDrum;
    drum.pool.clear();
    drum.decision.clear();
    drum.standing.clear();
    drum.sum.clear();
    drum.answered = false;
    drum.stood = Number.NaN;
    drum.stoodSign = 0;
  }

  /**
   * What was read of the pair before: a drum that shows it again needs few hits for it. Holds until told otherwise. Real-time safe: yes.
   * @param delay samples; @param sign product of signs, 0: nothing is known; @param uncertainty samples, NaN: nobody knows
   */
  expect(delay: number, sign: number, uncertainty: number): void {
    this.knownDelay = delay;
    this.knownSign = sign;
    this.knownUncertainty = uncertainty;
  }

  /** Real-time safe: yes. @param id 0: the one that a microphone stands at */
  choose(store: HitStore, id: number): void {
    this.chosenId = id > 0 && this.sorter.find(id) >= 0 ? id : 0;
    this.shownId = 0;
    this.show(store);
  }

  private show(store: HitStore): void {
    const chosen = this.chosenId > 0 ? this.sorter.find(this.chosenId) : NO_DRUM;
    let d = chosen;
    if (chosen < 0) {
      this.chosenId = 0;
      const before = this.shownId > 0 ? this.sorter.find(this.shownId) : NO_DRUM;
      d = this.near.find(store, this.several(), before);
    }
    const answers = d >= 0 && (this.each[d] as HeardDrum).decision.sign !== 0;
    this.open = chosen < 0 && (this.near.open || (answers && this.near.outdone(store, d)));
    this.shownId = d >= 0 ? (this.sorter.id[d] as number) : 0;
    this.shownAt = this.open ? NO_DRUM : d;
    this.shown = this.each[this.shownAt >= 0 ? this.shownAt : DRUM_SLOTS] as HeardDrum;
  }

  /** Several drums are played, and this is the one that a person chose, or that a microphone stands at. Real-time safe: yes. */
  isAsked(d: number): boolean {
    return d === this.shownAt && (this.near.found || (this.chosen && this.several()));
  }

  /** More than one drum has the hits for an answer. */
  private several(): boolean {
    let n = 0;
    for (let d = 0; d < DRUM_SLOTS; d++)
      if (this.sorter.id[d] !== 0 && (this.each[d] as HeardDrum).pool.drumHits >= this.hitsNeeded) n++;
    return n > 1;
  }

  private noteAnswer(d: number): void {
    const drum = this.each[d] as HeardDrum;
    const { sign, following, moved, lowEndA, lowEndB } = drum.decision;
    if (sign !== 0 && !following && !moved && !lowEndA && !lowEndB) drum.answered = true;
  }

  /** What the drum's hits say one by one. Real-time safe: yes. @returns the drum that the newest of them is of: they may be two drums' */
  evaluate(store: HitStore, d: number): number {
    const { pool } = this.each[d] as HeardDrum;
    const { oldUpTo } = pool;
    pool.evaluate(store, d, this.twoDrums && this.sorter.led(d));
    const other = pool.oldUpTo > oldUpTo ? this.sorter.partBySound(store, d, pool.oldUpTo) : NO_DRUM;
    if (other !== NO_DRUM) {
      this.begin(other);
      pool.restore(oldUpTo);
      this.stale[d] = 1;
      (this.each[other] as HeardDrum).pool.evaluate(store, other, this.twoDrums && this.sorter.led(other));
    }
    for (let i = 0; i < store.kept; i++) {
      const s = store.at(i);
      if (store.mixed[s] && store.drum[s] === d) store.fate[s] = FATE['two-drums'];
    }
    return other === NO_DRUM ? d : other;
  }

  /** The drum's decision stands: what follows from it for its sum, and for the others. Real-time safe: yes. */
  decided(store: HitStore, d: number, common: CommonLags | null = null): void {
    const { pool, decision, standing } = this.each[d] as HeardDrum;
    if (this.knownSign !== 0 && this.isAsked(d))
      standing.expect(this.knownDelay, this.knownSign, this.knownUncertainty);
    standing.amend(store, pool, decision);
    this.addUp(store, d, common);
    this.noteMove(store, d);
    this.noteAnswer(d);
    this.show(store);
  }

  /** The drum's sum, of the hits that are there. Real-time safe: yes. */
  addUp(store: HitStore, d: number, common: CommonLags | null = null): void {
    const { sum, pool, decision } = this.each[d] as HeardDrum;
    sum.evaluate(store, pool, decision, common?.lags, common?.lagFactor);
  }

  /** A microphone that one drum has seen to move has moved for all: what they heard before no longer counts. */
  private noteMove(store: HitStore, d: number): void {
    const drum = this.each[d] as HeardDrum;
    const { decision, pool } = drum;
    if (decision.sign === 0 || decision.following || !pool.steady) return;
    const away = Math.abs(decision.delay - drum.stood);
    const moved =
      pool.oldUpTo > 0 && (away > this.movedSamples || (drum.stoodSign !== 0 && drum.stoodSign !== decision.sign));
    drum.stood = decision.delay;
    drum.stoodSign = decision.sign;
    if (!moved) return;
    for (let other = 0; other < DRUM_SLOTS; other++) {
      if (other === d || this.sorter.id[other] === 0) continue;
      const it = this.each[other] as HeardDrum;
      if (!it.pool.forgetUpTo(store, other, pool.oldUpTo)) continue;
      it.decision.clear();
      it.decision.moved = true;
      it.standing.clear();
      it.sum.clear();
      it.stood = Number.NaN;
      it.stoodSign = 0;
    }
  }

  private callRoll(store: HitStore): void {
    this.length = 0;
    this.clippedA = 0;
    this.clippedB = 0;
    this.onlyA = 0;
    this.onlyB = 0;
    for (let i = Math.max(0, store.kept - this.newestHits); i < store.kept; i++) {
      const s = store.at(i);
      if (!store.hasArrival[s] || store.dropped[s]) continue;
      const clip = store.clipped[s] as number;
      if (clip & 1) this.clippedA++;
      if (clip & 2) this.clippedB++;
      if ((store.oneSided[s] as number) > 0) this.onlyA++;
      if ((store.oneSided[s] as number) < 0) this.onlyB++;
      this.length++;
    }
  }

  /** Real-time safe: yes. */
  clear(store: HitStore): void {
    this.sorter.clear();
    this.near.clear();
    for (let d = 0; d <= DRUM_SLOTS; d++) this.begin(d);
    this.chosenId = 0;
    this.shownId = 0;
    this.length = 0;
    this.clippedA = 0;
    this.clippedB = 0;
    this.onlyA = 0;
    this.onlyB = 0;
    this.show(store);
  }
}
