/** The mode of a handful of signed values: what most of them say, to within a little, and how strongly. */
import { median } from './median';

/** What `find` finds. Delays in samples. */
export class Mode {
  /** members of the mode, and candidates in all */
  members = 0;
  candidates = 0;
  /** weight of the mode over all weight */
  share = Number.NaN;
  delay = Number.NaN;
  sign = 0;
  /** median absolute deviation of the members, samples */
  spread = Number.NaN;

  none(): void {
    this.members = 0;
    this.candidates = 0;
    this.share = 0;
    this.delay = Number.NaN;
    this.sign = 0;
    this.spread = Number.NaN;
  }
}

/** Fill weight (0: no candidate), value and sign of hit i, then `find`. */
export class ModeFinder {
  readonly weight: Float64Array;
  readonly value: Float64Array;
  readonly sign: Float64Array;
  /** 1: hit i belongs to the mode found last */
  readonly member: Uint8Array;
  private readonly sorted: Float64Array;

  /**
   * @param withinSamples hits say the same when their values lie this close, and their signs agree
   * @param newestHits the delay is the median of so many of them, the newest
   * @param mostHits values at a time at most
   */
  constructor(
    readonly withinSamples: number,
    private readonly newestHits: number,
    mostHits: number,
  ) {
    this.weight = new Float64Array(mostHits);
    this.value = new Float64Array(mostHits);
    this.sign = new Float64Array(mostHits);
    this.member = new Uint8Array(mostHits);
    this.sorted = new Float64Array(mostHits);
  }

  /** The neighbourhood with most weight among the first n hits; its median and spread. Real-time safe: yes. */
  find(n: number, out: Mode): void {
    out.none();
    let all = 0;
    let best = 0;
    let centre = -1;
    for (let i = 0; i < n; i++) {
      const w = this.weight[i] as number;
      if (w <= 0) continue;
      out.candidates++;
      all += w;
      let sum = 0;
      for (let j = 0; j < n; j++) if (this.near(i, j)) sum += this.weight[j] as number;
      if (sum > best) {
        best = sum;
        centre = i;
      }
    }
    this.member.fill(0);
    if (centre < 0) return;
    let members = 0;
    for (let j = 0; j < n; j++) {
      if (!this.near(centre, j)) continue;
      this.member[j] = 1;
      members++;
    }
    out.members = members;
    out.share = best / all;
    out.sign = this.sign[centre] as number;
    // the newest of them say where the microphones are now; all of them say how closely they repeat
    let newest = 0;
    for (let j = n - 1; j >= 0 && newest < this.newestHits; j--)
      if (this.member[j]) this.sorted[newest++] = this.value[j] as number;
    out.delay = median(this.sorted, newest);
    members = 0;
    for (let j = 0; j < n; j++)
      if (this.member[j]) this.sorted[members++] = Math.abs((this.value[j] as number) - out.delay);
    out.spread = median(this.sorted, members);
  }

  /** Hits i and j are candidates and say the same. Real-time safe: yes. */
  near(i: number, j: number): boolean {
    return (
      (this.weight[i] as number) > 0 &&
      (this.weight[j] as number) > 0 &&
      this.sign[i] === this.sign[j] &&
      Math.abs((this.value[i] as number) - (this.value[j] as number)) <= this.withinSamples
    );
  }
}
