/**
 * Which of the kept hits are told one by one: the newest, and of the drum that is shown as many as its answer may rest on, however
 * many of others came since.
 */
import { HITS_KEPT, POOL_HITS } from '../../reading/limits';
import type { HitStore } from '../hit/hitStore';

export class ToldHits {
  count = 0;
  /** their slots, oldest first: the first `count` entries */
  readonly slots = new Int32Array(HITS_KEPT);

  /** Real-time safe: yes. @param shown number of the drum that is shown; −1: none */
  choose(store: HitStore, shown: number): void {
    let own = 0;
    for (let i = 0; i < store.kept && own < POOL_HITS; i++) if (shown >= 0 && store.drum[store.at(i)] === shown) own++;
    let free = HITS_KEPT - own;
    let at = HITS_KEPT;
    for (let i = store.kept - 1; i >= 0; i--) {
      const s = store.at(i);
      if (own > 0 && store.drum[s] === shown) own--;
      else if (free > 0) free--;
      else continue;
      this.slots[--at] = s;
    }
    this.count = HITS_KEPT - at;
    this.slots.copyWithin(0, at, HITS_KEPT);
  }
}
