/** Where hits begin, known beforehand: of a take, whose other tracks tell. In place of a HitDetector. */
import type { HitSource } from './hitDetector';

export class GivenHits implements HitSource {
  readonly soon = -1;
  private next = 0;
  private frame = 0;

  /** @param frames where they begin, ascending, counted from the stream's start */
  constructor(private readonly frames: readonly number[]) {}

  /** Real-time safe: yes. */
  run(_a: Float64Array, _b: Float64Array, n: number): number {
    this.frame += n;
    const at = this.frames[this.next];
    if (at === undefined || at >= this.frame) return -1;
    this.next++;
    return at;
  }

  /** Nothing is forgotten: they are counted from the stream's start. */
  clear(): void {}
}
