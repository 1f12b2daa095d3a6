/** Hits that a gap was found in, maybe a second after they came: nothing is made of them any more. */
import type { InputOffsetGauge } from './delay/inputOffsetGauge';
import { NO_DRUM } from './drum/drumSorter';
import type { HeardDrums } from './heardDrums';
import type { Gaps } from './hit/gaps';
import type { HitStore } from './hit/hitStore';

/** Real-time safe: yes. @returns how many were left out */
export function leaveOut(store: HitStore, gaps: Gaps, heard: HeardDrums, gauge: InputOffsetGauge | null): number {
  let n = 0;
  for (let i = 0; i < store.kept; i++) {
    const s = store.at(i);
    if (!gaps.mark(s)) continue;
    gauge?.forgetFrom(store.serial[s] as number);
    const d = store.drum[s] as number;
    if (store.hasArrival[s] && d !== NO_DRUM) heard.drop(store, s, d);
    n++;
  }
  return n;
}
