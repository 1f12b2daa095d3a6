/**
 * The likeliest delay, where the witnesses don't agree: in a groove a hi-hat comes before the drum in part of the hits. Each hit shows
 * the drum's delay in one pair of its onsets, or something else came first and its pairs lie anywhere. Candidates are where pairs of
 * several hits agree, and what the other witnesses say; what speaks for each is weighed against the others and against "none of them".
 * Spread over pieces: `begin`, then `work` until it returns true.
 */
import { POOL_HITS } from '../../../reading/limits';
import type { HitStore } from '../../hit/hitStore';
import { PAIRS } from '../../hit/onsets';
import { median } from '../../signal/median';
import { TUNING, type Tuning } from '../../tuning';
import type { LikelyTuning } from '../../tuning/likelyTuning';
import type { AttackFit } from '../attackFit';
import type { Pool } from '../pool';
import type { Stack } from '../stack';
import { changeIn } from './change';
import { EVIDENCE, Evidence } from './evidence';

const GROUPS = 10;
const CANDIDATES = 24;

export class Likelihood {
  /** of the likeliest: B−A samples, product of signs (0: none), its probability, how far the candidates in it lie apart, median deviation, hits that show it */
  delay = Number.NaN;
  sign = 0;
  probability = Number.NaN;
  width = Number.NaN;
  spread = Number.NaN;
  members = 0;
  /** nats by which it is likelier that the newer hits show it less than the older ones do */
  change = Number.NaN;
  /** 1: the pool's hit i shows it; and where it does so, samples */
  readonly shows = new Uint8Array(POOL_HITS);
  readonly shownAt = new Float64Array(POOL_HITS);

  /** the candidates: B−A samples, product of signs, and what speaks for each, as in EVIDENCE */
  readonly at = new Float64Array(CANDIDATES);
  readonly way = new Int8Array(CANDIDATES);
  readonly evidence = new Float64Array(CANDIDATES * EVIDENCE.length);
  candidates = 0;
  private readonly score = new Float64Array(CANDIDATES);
  private readonly weights: Float64Array;
  private readonly witness: Evidence;
  /** hits that agree with each pair, pair by pair of the pool's hits */
  private readonly agreeing = new Uint8Array(POOL_HITS * PAIRS);
  private readonly sorted = new Float64Array(POOL_HITS * PAIRS);
  private next = 0;
  private counting = false;
  private readonly tuning: LikelyTuning;
  private readonly within: number;
  private readonly same: number;
  private readonly scatter: number;

  constructor(sampleRate: number, { delay }: Pick<Tuning, 'delay'> = TUNING) {
    const tuning = delay.likely;
    this.tuning = tuning;
    this.within = tuning.withinSeconds * sampleRate;
    this.same = tuning.sameSeconds * sampleRate;
    this.scatter = tuning.scatterSeconds * sampleRate;
    this.weights = Float64Array.from(EVIDENCE, (name) => tuning.weights[name]);
    this.witness = new Evidence(sampleRate, POOL_HITS, tuning);
  }

  /** Real-time safe: yes. */
  begin(): void {
    this.candidates = 0;
    this.next = 0;
    this.counting = true;
    this.sign = 0;
    this.delay = Number.NaN;
    this.probability = 0;
    this.members = 0;
  }

  /** One piece. Real-time safe: yes. @returns true when it is done */
  work(store: HitStore, pool: Pool, fit: AttackFit, stack: Stack): boolean {
    if (this.counting) {
      if (this.next < pool.drumHits) this.countAgreeing(store, pool, this.next++);
      else {
        this.gather(store, pool, fit, stack);
        this.counting = false;
        this.next = 0;
      }
      return false;
    }
    if (this.next < this.candidates) {
      const { next, evidence, witness } = this;
      witness.write(
        store,
        pool,
        fit,
        stack,
        this.at[next] as number,
        this.way[next] as number,
        evidence,
        next * EVIDENCE.length,
      );
      this.score[next] = this.weigh(next);
      this.next++;
      return false;
    }
    this.choose(store, pool);
    return true;
  }

  /** How many hits have a pair near each of hit i's. */
  private countAgreeing(store: HitStore, pool: Pool, i: number): void {
    const s = pool.drumSlots[i] as number;
    const n = store.pairs[s] as number;
    for (let p = 0; p < n; p++) {
      const at = store.pairDelay[s * PAIRS + p] as number;
      const way = store.pairSign[s * PAIRS + p] as number;
      let k = 0;
      for (let j = 0; j < pool.drumHits; j++) if (this.nearest(store, pool, j, at, way) >= 0) k++;
      this.agreeing[i * PAIRS + p] = k;
    }
  }

  /** @returns the place in the store of the pair of the pool's hit j that lies nearest, within reach; −1: none does */
  private nearest(store: HitStore, pool: Pool, j: number, at: number, way: number): number {
    const from = (pool.drumSlots[j] as number) * PAIRS;
    const to = from + (store.pairs[pool.drumSlots[j] as number] as number);
    let best = -1;
    let least = this.within;
    for (let q = from; q < to; q++) {
      const off = Math.abs((store.pairDelay[q] as number) - at);
      if (store.pairSign[q] !== way || off > least) continue;
      least = off;
      best = q;
    }
    return best;
  }

  /** The groups with most hits, and what the others say. */
  private gather(store: HitStore, pool: Pool, fit: AttackFit, stack: Stack): void {
    for (let g = 0; g < GROUPS; g++) if (!this.addGroup(store, pool)) break;
    for (let c = 0; c < fit.peaks; c++) this.add(fit.peakLag(c), fit.peakSign(c));
    this.add(pool.waves.delay, pool.waves.sign);
    this.add(pool.lows.delay, pool.lows.sign);
    if (pool.wantsStack) this.add(stack.delay, stack.sign);
  }

  /** The largest group left; its pairs and those near are spent. @returns false: there is none left */
  private addGroup(store: HitStore, pool: Pool): boolean {
    let most: number = this.tuning.leastHits - 1;
    let at = Number.NaN;
    let way = 0;
    for (let i = 0; i < pool.drumHits; i++) {
      const s = pool.drumSlots[i] as number;
      for (let p = 0; p < (store.pairs[s] as number); p++) {
        if ((this.agreeing[i * PAIRS + p] as number) <= most) continue;
        most = this.agreeing[i * PAIRS + p] as number;
        at = store.pairDelay[s * PAIRS + p] as number;
        way = store.pairSign[s * PAIRS + p] as number;
      }
    }
    if (way === 0) return false;
    let n = 0;
    for (let i = 0; i < pool.drumHits; i++) {
      const s = pool.drumSlots[i] as number;
      const q = this.nearest(store, pool, i, at, way);
      if (q >= 0) this.sorted[n++] = store.pairDelay[q] as number;
      for (let p = 0; p < (store.pairs[s] as number); p++)
        if (
          store.pairSign[s * PAIRS + p] === way &&
          Math.abs((store.pairDelay[s * PAIRS + p] as number) - at) <= this.within
        )
          this.agreeing[i * PAIRS + p] = 0;
    }
    this.add(median(this.sorted, n), way);
    return true;
  }

  private add(at: number, way: number): void {
    if (Number.isNaN(at) || way === 0 || this.candidates === CANDIDATES) return;
    for (let c = 0; c < this.candidates; c++)
      if (this.way[c] === way && Math.abs((this.at[c] as number) - at) < this.scatter) return;
    this.at[this.candidates] = at;
    this.way[this.candidates++] = way;
  }

  /** What speaks for a candidate, weighed. */
  private weigh(c: number): number {
    const { evidence, weights } = this;
    const from = c * EVIDENCE.length;
    let score = 0;
    for (let k = 0; k < EVIDENCE.length; k++) score += (weights[k] as number) * (evidence[from + k] as number);
    return score;
  }

  private choose(store: HitStore, pool: Pool): void {
    let best = -1;
    for (let c = 0; c < this.candidates; c++)
      if (best < 0 || (this.score[c] as number) > (this.score[best] as number)) best = c;
    if (best < 0) return;
    const at = this.at[best] as number;
    const way = this.way[best] as number;
    const top = Math.max(0, this.score[best] as number);
    let all = Math.exp(-top);
    let own = 0;
    let square = 0;
    for (let c = 0; c < this.candidates; c++) {
      const e = Math.exp((this.score[c] as number) - top);
      all += e;
      if (this.way[c] === way && Math.abs((this.at[c] as number) - at) < this.same) {
        own += e;
        square += e * ((this.at[c] as number) - at) ** 2;
      }
    }
    this.probability = own / all;
    this.width = Math.sqrt(square / own);
    this.delay = at;
    this.sign = way;
    let n = 0;
    for (let i = 0; i < pool.drumHits; i++) {
      const q = this.nearest(store, pool, i, at, way);
      this.shows[i] = q >= 0 ? 1 : 0;
      if (q < 0) continue;
      this.shownAt[i] = store.pairDelay[q] as number;
      this.sorted[n++] = Math.abs((store.pairDelay[q] as number) - at);
    }
    this.members = n;
    this.spread = n > 0 ? median(this.sorted, n) : Number.NaN;
    this.change = changeIn(this.shows, pool.drumHits);
  }
}
