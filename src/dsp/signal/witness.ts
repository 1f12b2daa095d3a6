/** What most of a handful of hits say, and how strongly. */
import { POOL_HITS } from '../../reading/limits';

/** hits say the same when their delays lie this close, and their signs agree */
const MODE_SECONDS = 0.00008;

/** members behind the delay: the newest */
const NEWEST_HITS = 8;

/** What one witness (first arrivals, or the waveform) says. Delays in samples. */
export class Witness {
  /** members of the mode, and candidates in all */
  members = 0;
  candidates = 0;
  /** weight of the mode over all weight */
  share = 0;
  delay = Number.NaN;
  sign = 0;
  /** median absolute deviation of the members, samples */
  spread = Number.NaN;
  sure = false;

  none(): void {
    this.members = 0;
    this.candidates = 0;
    this.share = 0;
    this.delay = Number.NaN;
    this.sign = 0;
    this.spread = Number.NaN;
    this.sure = false;
  }
}

/** Fill weight (0: no candidate), value and sign of hit i, then `find`. */
export class ModeFinder {
  readonly weight = new Float64Array(POOL_HITS);
  readonly value = new Float64Array(POOL_HITS);
  readonly sign = new Float64Array(POOL_HITS);
  /** 1: hit i belongs to the mode found last */
  readonly member = new Uint8Array(POOL_HITS);
  private readonly sorted = new Float64Array(POOL_HITS);
  readonly modeSamples: number;

  constructor(sampleRate: number) {
    this.modeSamples = MODE_SECONDS * sampleRate;
  }

  /** The neighbourhood with most weight among the first n hits; its median and spread. Real-time safe: yes. */
  find(n: number, out: Witness): void {
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
    for (let j = n - 1; j >= 0 && newest < NEWEST_HITS; j--)
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
      Math.abs((this.value[i] as number) - (this.value[j] as number)) <= this.modeSamples
    );
  }
}

/** Median of the first n values; sorts them in place. Real-time safe: yes. */
export function median(values: Float64Array, n: number): number {
  if (n === 0) return Number.NaN;
  for (let i = 1; i < n; i++) {
    const v = values[i] as number;
    let j = i - 1;
    while (j >= 0 && (values[j] as number) > v) {
      values[j + 1] = values[j] as number;
      j--;
    }
    values[j + 1] = v;
  }
  const m = n >> 1;
  return n % 2 ? (values[m] as number) : ((values[m - 1] as number) + (values[m] as number)) / 2;
}
