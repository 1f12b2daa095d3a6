/**
 * Whether hits that sound alike come from two drums after all: their low ends arrive with two clearly different delays, by
 * turns. One microphone that was moved gives two delays as well, but one after the other.
 */
import { type HitStore, STORED_HITS } from '../hit/hitStore';
import { DRUM, type TwoDelaysTuning } from '../tuning/drumTuning';

export class TwoDelays {
  private readonly sorted = new Float64Array(STORED_HITS);
  private readonly apart: number;

  constructor(
    sampleRate: number,
    private readonly tuning: TwoDelaysTuning = DRUM.twoDelays,
  ) {
    this.apart = tuning.apartSeconds * sampleRate;
  }

  /** Real-time safe: yes. @returns a delay between the two, samples; NaN: there are not two */
  between(store: HitStore, drum: number): number {
    const { sorted } = this;
    const { scatterShare, leastHits, leastTurns, newestHits } = this.tuning;
    let n = 0;
    for (let j = store.kept - 1; j >= 0 && n < newestHits; j--) {
      const s = store.at(j);
      if (!this.counts(store, s, drum)) continue;
      const v = store.lowDelay[s] as number;
      let i = n++;
      while (i > 0 && (sorted[i - 1] as number) > v) {
        sorted[i] = sorted[i - 1] as number;
        i--;
      }
      sorted[i] = v;
    }
    if (n < 2 * leastHits) return Number.NaN;
    let at = 1;
    for (let i = 2; i < n; i++) if (this.gap(i) > this.gap(at)) at = i;
    if (this.gap(at) < this.apart || at < leastHits || n - at < leastHits) return Number.NaN;
    // each of the two lies close together
    if ((sorted[at - 1] as number) - (sorted[0] as number) > scatterShare * this.apart) return Number.NaN;
    if ((sorted[n - 1] as number) - (sorted[at] as number) > scatterShare * this.apart) return Number.NaN;
    const middle = ((sorted[at] as number) + (sorted[at - 1] as number)) / 2;
    return this.turns(store, drum, middle) >= leastTurns ? middle : Number.NaN;
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
    for (let j = store.kept - 1; j >= 0 && n < this.tuning.newestHits; j--) {
      const s = store.at(j);
      if (!this.counts(store, s, drum)) continue;
      n++;
      const side = (store.lowDelay[s] as number) > middle ? 1 : -1;
      if (last !== 0 && side !== last) turns++;
      last = side;
    }
    return turns;
  }
}
