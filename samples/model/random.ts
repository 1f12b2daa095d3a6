/**
 * The one source of chance in the demo kit: xoshiro128** (D. Blackman, S. Vigna, 2018; public domain: prng.di.unimi.it/xoshiro128starstar.c), seeded
 * through splitmix32. Integer arithmetic only, so that the same seed gives the same kit on every machine.
 */
export class Random {
  private a: number;
  private b: number;
  private c: number;
  private d: number;
  private spare: number | null = null;

  /** A stream from a given state, for comparing with the published generator. */
  static fromState(a: number, b: number, c: number, d: number): Random {
    const random = new Random(0);
    random.a = a;
    random.b = b;
    random.c = c;
    random.d = d;
    return random;
  }

  /** @param seed any integer; the label keeps streams apart, so that adding one never changes another */
  constructor(seed: number, label = '') {
    let state = seed >>> 0;
    for (let i = 0; i < label.length; i++) state = Math.imul(state ^ label.charCodeAt(i), 0x01000193) >>> 0;
    const next = () => {
      state = (state + 0x9e3779b9) >>> 0;
      let z = state;
      z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
      z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
      return (z ^ (z >>> 16)) >>> 0;
    };
    this.a = next();
    this.b = next();
    this.c = next();
    this.d = next() | 1; // the all-zero state would stay there
  }

  /** 0 ≤ x < 1, 32 bits. */
  uniform(): number {
    return this.next32() / 4294967296;
  }

  /** The generator itself: 0 … 2³²−1. */
  next32(): number {
    const times5 = Math.imul(this.b, 5);
    const result = Math.imul((times5 << 7) | (times5 >>> 25), 9) >>> 0;
    const shifted = this.b << 9;
    this.c ^= this.a;
    this.d ^= this.b;
    this.b ^= this.c;
    this.a ^= this.d;
    this.c ^= shifted;
    this.d = (this.d << 11) | (this.d >>> 21);
    return result;
  }

  /** Normal, mean 0, deviation 1 (Marsaglia's polar method). */
  normal(): number {
    if (this.spare !== null) {
      const kept = this.spare;
      this.spare = null;
      return kept;
    }
    for (;;) {
      const x = 2 * this.uniform() - 1;
      const y = 2 * this.uniform() - 1;
      const s = x * x + y * y;
      if (s <= 0 || s >= 1) continue;
      const scale = Math.sqrt((-2 * Math.log(s)) / s);
      this.spare = y * scale;
      return x * scale;
    }
  }
}
