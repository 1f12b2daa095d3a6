/** Where frames were lost, or were no sound: no hit counts whose stretch lies across such a gap, however much later the gap is noticed. */
import { FATE } from '../../reading/codes';
import { Runs } from '../input/runs';
import { Steps } from '../input/steps';
import { TUNING, type Tuning } from '../tuning';
import type { HitStore } from './hitStore';

/** the newest that are kept: a hit's stretch reaches back over a few at most, those of a second are one */
const GAPS_KEPT = 16;

/** A sample of ±1 is full scale. */
const MOST_SAMPLE = 1000;

/** NaN compares as false. */
export const isSound = (x: number): boolean => x > -MOST_SAMPLE && x < MOST_SAMPLE;

export class Gaps {
  /** one of the frames of the next run is no sound */
  noSound = false;
  readonly runs: Runs;
  /** null: one source feeds both, so that its own steps come at one moment */
  private readonly steps: Steps | null;
  private readonly from = new Float64Array(GAPS_KEPT);
  private readonly to = new Float64Array(GAPS_KEPT);
  private count = 0;
  private readonly before: number;
  private readonly after: number;
  private readonly shown: number;

  /** @param maxLagMs the reach, by which a hit's stretches are longer */
  constructor(
    sampleRate: number,
    private readonly store: HitStore,
    maxLagMs: number,
    oneSource: boolean,
    { input }: Pick<Tuning, 'input'> = TUNING,
  ) {
    const reach = (maxLagMs / 1000) * sampleRate;
    this.runs = new Runs(sampleRate);
    this.steps = oneSource ? null : new Steps(sampleRate, input.step);
    this.before = input.gap.beforeSeconds * sampleRate + reach;
    this.after = input.gap.afterSeconds * sampleRate + reach;
    this.shown = input.gap.shownSeconds * sampleRate;
  }

  /** n frames as they came in, after `frames`: what can be seen of gaps in them. Real-time safe: yes. @returns whether there is one */
  run(a: Float64Array, b: Float64Array, n: number, frames: number): boolean {
    const { runs } = this;
    runs.run(a, b, n);
    const step = this.steps === null ? -1 : this.steps.run(a, b, n);
    const last = frames + n - 1;
    if (step >= 0) this.add(last - step, last - step);
    if (runs.hole > 0) this.add(last - runs.holeAgo - runs.hole, last - runs.holeAgo);
    const found = step >= 0 || runs.hole > 0 || this.noSound;
    if (this.noSound) this.add(frames, last);
    this.noSound = false;
    return found;
  }

  /** Frames were lost somewhere in from…to. Real-time safe: yes. */
  add(from: number, to: number): void {
    const at = (this.count - 1) % GAPS_KEPT;
    if (this.count > 0 && from <= (this.to[at] as number)) {
      this.from[at] = Math.min(this.from[at] as number, from);
      this.to[at] = Math.max(this.to[at] as number, to);
      return;
    }
    this.from[this.count % GAPS_KEPT] = from;
    this.to[this.count % GAPS_KEPT] = to;
    this.count++;
  }

  /** One was noticed within so long that the trace must show it. Real-time safe: yes. */
  isFresh(frames: number): boolean {
    return this.count > 0 && frames - (this.to[(this.count - 1) % GAPS_KEPT] as number) <= this.shown;
  }

  /** Leave a hit out if one lies across it. Real-time safe: yes. @returns whether it counts no more, though it did until now */
  mark(slot: number): boolean {
    const { store } = this;
    const trigger = store.trigger[slot] as number;
    if (store.dropped[slot] || !this.touches(trigger - this.before, trigger + this.after)) return false;
    store.dropped[slot] = 1;
    store.fate[slot] = FATE['dropped-audio'];
    return true;
  }

  private touches(from: number, to: number): boolean {
    for (let i = 0; i < Math.min(this.count, GAPS_KEPT); i++)
      if ((this.from[i] as number) <= to && (this.to[i] as number) >= from) return true;
    return false;
  }
}
