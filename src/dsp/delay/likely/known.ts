/**
 * An answer that a drum has had, looked for where its hits alone leave it open: read alone a minute ago, the drum is played in a groove
 * now. There is no searching then, so a few hits that show it are enough; where the newest don't, nothing is said of it.
 */
import { POOL_HITS } from '../../../reading/limits';
import type { HitStore } from '../../hit/hitStore';
import { PAIRS } from '../../hit/onsets';
import { median } from '../../signal/median';
import { TUNING, type Tuning } from '../../tuning';
import type { LikelyTuning } from '../../tuning/likelyTuning';
import type { Pool } from '../pool';
import { changeIn } from './change';
import { Evidence } from './evidence';

export class Known {
  /** samples, product of signs (0: nothing is known), and how accurate it was, samples (NaN: nobody knows) */
  delay = Number.NaN;
  sign = 0;
  uncertainty = Number.NaN;
  /** of the hits that show it, as `confirmed` found them: median delay, median deviation, and which */
  shownDelay = Number.NaN;
  spread = Number.NaN;
  members = 0;
  readonly shows = new Uint8Array(POOL_HITS);
  readonly shownAt = new Float64Array(POOL_HITS);
  private readonly evidence: Evidence;
  private readonly tuning: LikelyTuning;
  private readonly within: number;
  private readonly rivalsWithin: number;
  /** the near one, also for a far drum: chance comes near there more seldom than is reckoned with */
  private readonly reach: number;
  private readonly sorted = new Float64Array(POOL_HITS);

  constructor(sampleRate: number, { delay, hit }: Pick<Tuning, 'delay' | 'hit'> = TUNING) {
    this.reach = hit.nearReachSeconds * sampleRate;
    this.tuning = delay.likely;
    this.within = this.tuning.withinSeconds * sampleRate;
    this.rivalsWithin = this.tuning.known.rivalSeconds * sampleRate;
    this.evidence = new Evidence(sampleRate, POOL_HITS, this.tuning);
  }

  /** Real-time safe: yes. @param delay samples; @param sign product of signs; @param uncertainty samples */
  keep(delay: number, sign: number, uncertainty: number): void {
    this.delay = delay;
    this.sign = sign;
    this.uncertainty = uncertainty;
  }

  /** It is that answer. Real-time safe: yes. @param delay samples */
  says(delay: number, sign: number): boolean {
    return this.sign === 0 || (sign === this.sign && Math.abs(delay - this.delay) <= this.within);
  }

  /** The newest hits show it, better than any neighbouring swing, and the last of them no less than the first. Real-time safe: yes. */
  confirmed(store: HitStore, pool: Pool): boolean {
    const { known, changedWhileStanding } = this.tuning;
    if (this.sign === 0) return false;
    const from = Math.max(0, pool.drumHits - known.newestHits);
    this.evidence.lookFor(store, pool, from, this.delay, this.sign, this.reach);
    const { ratio } = this.evidence;
    if (ratio < known.leastNats || ratio < this.bestRival(store, pool, from) + known.rivalNats) return false;
    this.findHits(store, pool);
    return this.members > 0 && changeIn(this.shows, pool.drumHits, from) < changedWhileStanding;
  }

  /** What the hits say of the best other delay nearby: a swing before or after lies there, and a microphone that was moved. */
  private bestRival(store: HitStore, pool: Pool, fromHit: number): number {
    let best = Number.NEGATIVE_INFINITY;
    for (let i = fromHit; i < pool.drumHits; i++) {
      const from = (pool.drumSlots[i] as number) * PAIRS;
      const to = from + (store.pairs[pool.drumSlots[i] as number] as number);
      for (let q = from; q < to; q++) {
        const off = Math.abs((store.pairDelay[q] as number) - this.delay);
        const way = store.pairSign[q] as number;
        if (off > this.rivalsWithin || (way === this.sign && off <= this.within)) continue;
        this.evidence.lookFor(store, pool, fromHit, store.pairDelay[q] as number, way, this.reach);
        best = Math.max(best, this.evidence.ratio);
      }
    }
    return best;
  }

  private findHits(store: HitStore, pool: Pool): void {
    const { shows, shownAt, sorted } = this;
    let n = 0;
    for (let i = 0; i < pool.drumHits; i++) {
      const from = (pool.drumSlots[i] as number) * PAIRS;
      const to = from + (store.pairs[pool.drumSlots[i] as number] as number);
      let least = this.within;
      shows[i] = 0;
      for (let q = from; q < to; q++) {
        const off = Math.abs((store.pairDelay[q] as number) - this.delay);
        if (store.pairSign[q] !== this.sign || off > least) continue;
        least = off;
        shows[i] = 1;
        shownAt[i] = store.pairDelay[q] as number;
      }
      if (shows[i]) sorted[n++] = shownAt[i] as number;
    }
    this.members = n;
    this.shownDelay = n > 0 ? median(sorted, n) : Number.NaN;
    n = 0;
    for (let i = 0; i < pool.drumHits; i++)
      if (shows[i]) sorted[n++] = Math.abs((shownAt[i] as number) - this.shownDelay);
    this.spread = n > 0 ? median(sorted, n) : Number.NaN;
  }

  /** Real-time safe: yes. */
  forget(): void {
    this.delay = Number.NaN;
    this.sign = 0;
    this.uncertainty = Number.NaN;
  }
}
