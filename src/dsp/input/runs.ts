/** How long both inputs have been exactly zero, how long exactly equal, and the holes that lost blocks leave. */

/** s: shorter ones may be a wave's own, longer ones an edit's silence */
const LEAST_HOLE_SECONDS = 0.001;
const MOST_HOLE_SECONDS = 0.1;

export class Runs {
  /** frames */
  zero = 0;
  equal = 0;
  /** of the last run: frames of a hole that has ended, and how many frames before the last one; 0: none did */
  hole = 0;
  holeAgo = 0;
  private readonly leastHole: number;
  private readonly mostHole: number;
  /** neither was zero at the frame before, respectively before the zeros */
  private bothBefore = false;
  private bothAtZeros = false;

  constructor(sampleRate: number) {
    this.leastHole = Math.round(LEAST_HOLE_SECONDS * sampleRate);
    this.mostHole = Math.round(MOST_HOLE_SECONDS * sampleRate);
  }

  /** n frames of each as they came in. A hole begins and ends in the midst of both signals. Real-time safe: yes. */
  run(xs: Float64Array, ys: Float64Array, n: number): void {
    this.hole = 0;
    let { zero, equal, bothBefore, bothAtZeros } = this;
    for (let i = 0; i < n; i++) {
      const x = xs[i] as number;
      const y = ys[i] as number;
      const both = x !== 0 && y !== 0;
      if (x === 0 && y === 0) {
        if (zero === 0) bothAtZeros = bothBefore;
        zero++;
      } else {
        if (both && bothAtZeros && zero >= this.leastHole && zero <= this.mostHole) {
          this.hole = zero;
          this.holeAgo = n - 1 - i;
        }
        zero = 0;
      }
      bothBefore = both;
      if (x !== y) equal = 0;
      else if (x !== 0) equal++;
    }
    this.zero = zero;
    this.equal = equal;
    this.bothBefore = bothBefore;
    this.bothAtZeros = bothAtZeros;
  }
}
