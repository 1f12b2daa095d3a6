/**
 * The drum that A stands at, else the one that B stands at: by level and by who hears it first, from all hits since something changed,
 * never from the newest. Where neither stands at one of several, it is open which is meant.
 */
import type { HitStore } from '../hit/hitStore';
import { TUNING, type Tuning } from '../tuning';
import type { HeardDrumsTuning } from '../tuning/drumTuning';
import { levelOfHit } from './drumLevels';
import { DRUM_SLOTS, type DrumSorter, NO_DRUM } from './drumSorter';

export class NearDrum {
  /** neither microphone is clearly nearer to one of several drums */
  open = false;
  /** id of the drum that a microphone was found to stand at while others were heard; 0: none */
  private standsAt = 0;
  /** it was B */
  private byB = false;
  private readonly tuning: HeardDrumsTuning;
  private readonly together: number;

  constructor(
    private readonly sorter: DrumSorter,
    sampleRate: number,
    { drum }: Tuning = TUNING,
  ) {
    this.tuning = drum.heard;
    this.together = drum.heard.togetherSeconds * sampleRate;
  }

  /**
   * Real-time safe: yes.
   * @param several more than one drum has the hits for an answer
   * @param before the drum that was shown, NO_DRUM: none
   * @returns a drum, or NO_DRUM while none is heard
   */
  find(store: HitStore, several: boolean, before: number): number {
    const { sorter } = this;
    const { clearlyLouderDb, stillLouderDb, muchLouderDb } = this.tuning;
    this.open = false;
    const inA = this.loudest(true);
    if (inA < 0) return NO_DRUM;
    const inB = this.loudest(false);
    const stands = this.standsAt > 0 ? sorter.find(this.standsAt) : NO_DRUM;
    this.standsAt = 0;
    this.byB = false;
    if (!several) return this.keeps(before, inA, store) ? before : inA;
    const byA = inA === stands ? stillLouderDb : clearlyLouderDb;
    if (heardFirst(store, inA, this.together) > 0 && this.standsOut(inA, true, byA)) return this.stand(inA);
    const byB = inB === stands ? stillLouderDb : muchLouderDb;
    if (heardFirst(store, inB, this.together) < 0 && this.standsOut(inB, false, byB)) {
      this.byB = true;
      return this.stand(inB);
    }
    this.open = true;
    return inA;
  }

  /** a microphone stands at the drum that was found last */
  get found(): boolean {
    return this.standsAt > 0;
  }

  /** While no second one has the hits for an answer: of those with as many hits the first stays, for they come by turns, unless A is clearly nearer to another. */
  private keeps(before: number, inA: number, store: HitStore): boolean {
    const { sorter, tuning } = this;
    if (before < 0 || (sorter.hits[before] as number) < this.least()) return false;
    const enough = (sorter.hits[inA] as number) >= tuning.leastHits;
    const louder = this.level(inA, true) - this.level(before, true) > tuning.clearlyLouderDb;
    return !(enough && louder && heardFirst(store, inA, this.together) > 0);
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.open = false;
    this.standsAt = 0;
  }

  private stand(d: number): number {
    this.standsAt = this.sorter.id[d] as number;
    return d;
  }

  private level(d: number, inA: boolean): number {
    return inA ? this.sorter.levelA(d) : this.sorter.levelB(d);
  }

  /** Hits that a drum needs to be one of those that are asked: enough; before any has enough, as many as any. */
  private least(): number {
    const { sorter } = this;
    let most = 0;
    for (let d = 0; d < DRUM_SLOTS; d++) if (sorter.id[d] !== 0) most = Math.max(most, sorter.hits[d] as number);
    return Math.min(most, this.tuning.leastHits);
  }

  private loudest(inA: boolean): number {
    const { sorter } = this;
    const least = this.least();
    let best = NO_DRUM;
    for (let d = 0; d < DRUM_SLOTS; d++) {
      if (sorter.id[d] === 0 || (sorter.hits[d] as number) < least) continue;
      if (best === NO_DRUM || this.level(d, inA) > this.level(best, inA)) best = d;
    }
    return best;
  }

  /** No other drum with enough hits is nearly as loud in that microphone. */
  private standsOut(d: number, inA: boolean, byDb: number): boolean {
    const { sorter } = this;
    const own = this.level(d, inA) - byDb;
    for (let other = 0; other < DRUM_SLOTS; other++) {
      if (other === d || sorter.id[other] === 0 || (sorter.hits[other] as number) < this.tuning.leastHits) continue;
      if (this.level(other, inA) > own) return false;
    }
    return true;
  }

  /**
   * Several drums with too few hits, or hits that audio was dropped from, were clearly louder in A: a drum's hits that damage made unlike each other. An
   * answer of this drum is then hardly the one that A stands for; where B stands at it, A's levels say nothing. Real-time safe: yes.
   */
  outdone(store: HitStore, d: number): boolean {
    const { sorter } = this;
    if (this.byB) return false;
    const { leastHits, clearlyLouderDb, strayDrums } = this.tuning;
    const louder = this.level(d, true) + clearlyLouderDb;
    let strays = 0;
    for (let other = 0; other < DRUM_SLOTS; other++) {
      const hits = sorter.hits[other] as number;
      if (other === d || sorter.id[other] === 0 || hits >= leastHits) continue;
      if (this.level(other, true) > louder) strays++;
    }
    for (let i = 0; i < store.kept; i++) {
      const s = store.at(i);
      if (store.dropped[s] && levelOfHit(store, s) > louder) strays++;
    }
    return strays >= strayDrums;
  }
}

/** Which microphone mostly hears a drum's hits first: +1: A, −1: B, 0: both at once, or nobody knows. Real-time safe: yes. @param together samples within which both hear it at once */
export function heardFirst(store: HitStore, d: number, together: number): number {
  let a = 0;
  let b = 0;
  for (let i = 0; i < store.kept; i++) {
    const s = store.at(i);
    if (store.drum[s] !== d || !store.hasArrival[s]) continue;
    if ((store.pickDelay[s] as number) > together) a++;
    else if ((store.pickDelay[s] as number) < -together) b++;
  }
  return a > 2 * b ? 1 : b > 2 * a ? -1 : 0;
}
