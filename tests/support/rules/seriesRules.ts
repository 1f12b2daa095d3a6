/** As rules.ts, for what judges a series of delays by itself: what most of them say, and whether they move. */
import { FOLLOWING, Motion, SETTLING, STEADY } from '../../../src/dsp/delay/motion';
import { Witness } from '../../../src/dsp/delay/witness';
import { ModeFinder } from '../../../src/dsp/signal/modeFinder';
import { TUNING } from '../../../src/dsp/tuning';
import { POOL_HITS } from '../../../src/reading/limits';
import { RATE, SPACING_SECONDS, samplesOf, usOf } from './rules';

/** What most of a handful of values say; weight 1 and sign + unless told. @param witness what is filled in */
export function modeOf(
  hits: readonly { us: number; weight?: number; sign?: number }[],
  witness = new Witness(),
): Witness {
  const { withinSeconds, newestHits } = TUNING.delay.mode;
  const finder = new ModeFinder(withinSeconds * RATE, newestHits, POOL_HITS);
  for (const [i, hit] of hits.entries()) {
    finder.value[i] = samplesOf(hit.us);
    finder.weight[i] = hit.weight ?? 1;
    finder.sign[i] = hit.sign ?? 1;
  }
  finder.find(hits.length, witness);
  return witness;
}

export type MotionMode = 'steady' | 'following' | 'settling';
const MODES: Record<number, MotionMode> = { [STEADY]: 'steady', [FOLLOWING]: 'following', [SETTLING]: 'settling' };

/** First arrivals fed to a Motion hit by hit, as a pool does: what it lets go is not shown to it again. */
export class MotionFeed {
  private readonly motion = new Motion(RATE);
  private hits: { at: number; us: number; sign: number }[] = [];
  private dropped: { at: number; us: number; sign: number }[] = [];
  private time = 0;

  next(us: number, sign = 1): MotionMode {
    const { motion } = this;
    this.time += SPACING_SECONDS;
    this.hits.push({ at: this.time, us, sign });
    if (this.hits.length > POOL_HITS) this.hits.shift();
    motion.clear();
    for (const hit of this.hits) motion.add(hit.at, samplesOf(hit.us), hit.sign);
    motion.judge();
    if (motion.undo) this.hits = [...this.dropped, ...this.hits].slice(-POOL_HITS);
    else if (motion.keep < motion.count) this.dropped = this.hits.splice(0, motion.count - motion.keep);
    return this.mode;
  }

  get mode(): MotionMode {
    return MODES[this.motion.mode] as MotionMode;
  }
  /** hits that still count */
  get kept(): number {
    return this.hits.length;
  }
  get undone(): boolean {
    return this.motion.undo;
  }
  get endUs(): number {
    return usOf(this.motion.end);
  }
}
