/** What chance alone gives a coherence, and how much of it is left without that. */
import { SUM } from '../tuning/sumTuning';

/** Coherence of n segments without its bias (unrelated inputs average 1/n: Beta(1, n − 1), tests/reference/figures.py), 0…1. */
export function unbiased(coherence: number, segments: number): number {
  if (segments <= 1) return 0;
  return Math.max(0, Math.min(1, (coherence - 1 / segments) / (1 - 1 / segments)));
}

/** Coherence that unrelated inputs exceed in a share `chance` of the cases: 1 − chance^(1/(n−1)) (of the same distribution); `bins` averaged count as so many more. */
export function biasLimit(segments: number, bins: number, chance: number = SUM.chance): number {
  if (segments <= 1) return 1;
  return 1 - chance ** (1 / ((segments - 1) * bins));
}
