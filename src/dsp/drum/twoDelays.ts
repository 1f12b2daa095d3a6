/**
 * Whether hits that sound alike come from two drums after all: their low ends arrive with two clearly different delays, by
 * turns. One microphone that was moved gives two delays as well, but one after the other.
 */
import { type HitStore, STORED_HITS } from '../hit/hitStore';

/** two drums lie farther apart than this, s (14 cm of path); hits of one don't scatter more than half of it */
export const APART_SECONDS = 0.0004;
const LEAST_HITS = 3;
/** changes from one to the other and back, over the hits in order */
const LEAST_TURNS = 4;
const NEWEST_HITS = 16;

export class TwoDelays {
  private readonly sorted = new Float64Array(STORED_HITS);
  private readonly apart: number;

  constructor(sampleRate: number) {
    this.apart = APART_SECONDS * sampleRate;
  }

  /** Real-time safe: yes. @returns a delay between the two, samples; NaN: there are not two */
  between(store: HitStore, drum: number): number {
    const { sorted } = this;
    let n = 0;
    for (let serial = store.count; serial >= store.first && n < NEWEST_HITS; serial--) {
      const s = store.slot(serial);
      if (!this.counts(store, s, drum)) continue;
      const v = store.lowDelay[s] as number;
      let i = n++;
      while (i > 0 && (sorted[i - 1] as number) > v) {
        sorted[i] = sorted[i - 1] as number;
        i--;
      }
      sorted[i] = v;
    }
    if (n < 2 * LEAST_HITS) return Number.NaN;
    let at = 1;
    for (let i = 2; i < n; i++) if (this.gap(i) > this.gap(at)) at = i;
    if (this.gap(at) < this.apart || at < LEAST_HITS || n - at < LEAST_HITS) return Number.NaN;
    // each of the two lies close together
    if ((sorted[at - 1] as number) - (sorted[0] as number) > this.apart / 2) return Number.NaN;
    if ((sorted[n - 1] as number) - (sorted[at] as number) > this.apart / 2) return Number.NaN;
    const middle = ((sorted[at] as number) + (sorted[at - 1] as number)) / 2;
    return this.turns(store, drum, middle) >= LEAST_TURNS ? middle : Number.NaN;
  }

  private gap(i: number): number {
    return (this.sorted[i] as number) - (this.sorted[i - 1] as number);
  }

  private counts(store: HitStore, s: number, drum: number): boolean {
    return store.hasArrival[s] === 1 && store.drum[s] === drum && store.lowAlone[s] === 1;
  }

  private turns(store: HitStore, drum: number, middle: number): number {
    let turns = 0;
    let last = 0;
    let n = 0;
    for (let serial = store.count; serial >= store.first && n < NEWEST_HITS; serial--) {
      const s = store.slot(serial);
      if (!this.counts(store, s, drum)) continue;
      n++;
      const side = (store.lowDelay[s] as number) > middle ? 1 : -1;
      if (last !== 0 && side !== last) turns++;
      last = side;
    }
    return turns;
  }
}
