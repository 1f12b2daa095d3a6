/** xorshift32, then Box–Muller. */
export class Gauss {
  private x: number;

  constructor(seed: number) {
    this.x = seed >>> 0 || 1;
  }

  uniform(): number {
    this.x ^= this.x << 13;
    this.x >>>= 0;
    this.x ^= this.x >>> 17;
    this.x ^= this.x << 5;
    this.x >>>= 0;
    return this.x / 4294967296;
  }

  next(): number {
    return Math.sqrt(-2 * Math.log(this.uniform() + 1e-12)) * Math.cos(2 * Math.PI * this.uniform());
  }
}
