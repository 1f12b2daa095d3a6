/**
 * What speaks for a candidate delay: one number a piece of evidence, in the order of EVIDENCE. Each hit shows the drum's delay in one
 * pair of its onsets, or something else came first and its pairs lie anywhere; beside that stands what the other witnesses say.
 */
import type { HitStore } from '../../hit/hitStore';
import { PAIRS } from '../../hit/onsets';
import { median } from '../../signal/median';
import type { LikelyTuning } from '../../tuning/likelyTuning';
import type { AttackFit } from '../attackFit';
import type { Pool } from '../pool';
import type { Stack } from '../stack';

/** see the weights of these in `likelyTuning` */
export const EVIDENCE = [
  'bias',
  'hits',
  'ratio',
  'share',
  'spread',
  'height',
  'wave',
  'otherWave',
  'low',
  'first',
  'average',
  'fit',
] as const satisfies readonly (keyof LikelyTuning['weights'])[];

/** a Student distribution with three degrees of freedom, at its middle */
const STUDENT = 0.3675525969478614;
const SHARES = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.97];
const MOST_RATIO = 60;
const SPREAD_UNIT = 0.00004;
const MOST_SPREAD = 2;
/** where no pair lies near */
const NO_SPREAD = 1.25;

export class Evidence {
  private readonly odds: Float64Array;
  private readonly offs: Float64Array;
  /** of the delay looked for last: log-likelihood ratio against chance, nats, with the best share of hits; that share; pairs near it */
  ratio = Number.NEGATIVE_INFINITY;
  share = 0;
  near = 0;
  private readonly within: number;
  private readonly nearby: number;
  private readonly apart: number;
  private readonly scatter: number;

  /** @param hits a drum's at most */
  constructor(
    private readonly sampleRate: number,
    hits: number,
    private readonly tuning: LikelyTuning,
  ) {
    this.odds = new Float64Array(hits);
    this.offs = new Float64Array(hits * PAIRS);
    this.within = tuning.withinSeconds * sampleRate;
    this.nearby = tuning.nearSeconds * sampleRate;
    this.apart = tuning.apartSeconds * sampleRate;
    this.scatter = tuning.scatterSeconds * sampleRate;
  }

  /** Of the delay `at` (samples) with the sign `way`, into out[from…]. Real-time safe: yes. */
  write(
    store: HitStore,
    pool: Pool,
    fit: AttackFit,
    stack: Stack,
    at: number,
    way: number,
    out: Float64Array,
    from: number,
  ): void {
    const n = pool.drumHits;
    out[from] = 1;
    out[from + 1] = Math.log2(n) - 2;
    this.writePairs(store, pool, at, way, fit.maxLagSamples, out, from + 2);
    out[from + 5] = fit.heightAt(at, way, this.nearby);
    this.writeHits(store, pool, at, way, out, from + 6);
    let average = 0;
    if (pool.wantsStack && stack.sign !== 0)
      average = stack.sign === way && Math.abs(stack.delay - at) < this.nearby ? 1 : -1;
    out[from + 10] = average;
    const trust = fit.sign === 0 ? 0 : fit.agree * (1 - fit.runnerUp);
    const off = fit.sign === way ? Math.abs(fit.delay - at) : Number.POSITIVE_INFINITY;
    out[from + 11] = off < 2 * this.nearby ? trust : off < 5 * this.nearby ? 0 : -trust;
  }

  /** The onset pairs: likelihood ratio against chance with the best share of hits, that share, and how closely they agree. */
  private writePairs(
    store: HitStore,
    pool: Pool,
    at: number,
    way: number,
    reach: number,
    out: Float64Array,
    from: number,
  ): void {
    this.lookFor(store, pool, 0, at, way, reach);
    // it could have been at any of so many places
    out[from] = Math.min(MOST_RATIO, this.ratio - Math.log((4 * reach) / this.scatter)) / 10;
    out[from + 1] = this.share;
    out[from + 2] = NO_SPREAD;
    if (this.near > 0)
      out[from + 2] = Math.min(MOST_SPREAD, median(this.offs, this.near) / (SPREAD_UNIT * this.sampleRate));
  }

  /**
   * Do the pool's hits, from one on, show a delay? Into `ratio`, `share` and `near`. Real-time safe: yes.
   * @param at samples; @param way product of signs; @param reach the largest delay looked for, samples
   */
  lookFor(store: HitStore, pool: Pool, fromHit: number, at: number, way: number, reach: number): void {
    const { odds, scatter, offs } = this;
    const density = 1 / (4 * reach);
    this.near = 0;
    for (let i = fromHit; i < pool.drumHits; i++) {
      const first = (pool.drumSlots[i] as number) * PAIRS;
      const n = store.pairs[pool.drumSlots[i] as number] as number;
      let sum = 0;
      for (let q = first; q < first + n; q++) {
        if (store.pairSign[q] !== way) continue;
        const off = Math.abs((store.pairDelay[q] as number) - at);
        const d = off / scatter;
        sum += STUDENT / (1 + (d * d) / 3) ** 2 / scatter;
        if (off <= this.within) offs[this.near++] = off;
      }
      odds[i] = sum / Math.max(1, n) / density;
    }
    this.ratio = Number.NEGATIVE_INFINITY;
    this.share = 0;
    for (let k = 0; k < SHARES.length; k++) {
      const p = SHARES[k] as number;
      let sum = 0;
      for (let i = fromHit; i < pool.drumHits; i++) sum += Math.log(1 - p + p * (odds[i] as number));
      if (sum <= this.ratio) continue;
      this.ratio = sum;
      this.share = p;
    }
  }

  /** Shares of the hits: their correlation says so, or otherwise; their low end pushes there; it is their very first push. */
  private writeHits(store: HitStore, pool: Pool, at: number, way: number, out: Float64Array, from: number): void {
    const n = pool.drumHits;
    let wave = 0;
    let otherWave = 0;
    let low = 0;
    let first = 0;
    for (let i = 0; i < n; i++) {
      const s = pool.drumSlots[i] as number;
      const off = Math.abs((store.waveDelay[s] as number) - at);
      if ((store.waveRival[s] as number) < this.tuning.clearRival) {
        if (store.waveSign[s] === way && off < this.nearby) wave++;
        if (!(store.waveSign[s] === way && off < this.apart)) otherWave++;
      }
      if (store.lowAlone[s] && store.lowSign[s] === way && Math.abs((store.lowDelay[s] as number) - at) < this.nearby)
        low++;
      if (store.pickSign[s] === way && Math.abs((store.pickDelay[s] as number) - at) <= this.within) first++;
    }
    out[from] = wave / n;
    out[from + 1] = otherWave / n;
    out[from + 2] = low / n;
    out[from + 3] = first / n;
  }
}
