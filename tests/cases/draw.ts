/** Seeded draws in the shapes that cases need. */
import { Random } from '../../samples/model/random';

export class Draw {
  readonly random: Random;

  constructor(seed: number, label: string) {
    this.random = new Random(seed, label);
  }

  /** low ≤ x < high */
  between(low: number, high: number): number {
    return low + (high - low) * this.random.uniform();
  }

  /** Even on a logarithmic scale. */
  ratio(low: number, high: number): number {
    return low * (high / low) ** this.random.uniform();
  }

  chance(share: number): boolean {
    return this.random.uniform() < share;
  }

  sign(): 1 | -1 {
    return this.chance(0.5) ? 1 : -1;
  }

  one<T>(list: readonly T[]): T {
    return list[Math.floor(this.random.uniform() * list.length)] as T;
  }

  /** Normal, but never beyond two deviations: a player, not an accident. */
  within(): number {
    return Math.max(-2, Math.min(2, this.random.normal()));
  }
}
