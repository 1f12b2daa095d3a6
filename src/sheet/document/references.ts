/** The microphones that a drum's delays are told against. */
import type { KitSheet, Pair } from './model';

/** One of each drum, as the person chose it, else A of the drum's first pair: the rest goes by it, so it is the last to be turned. */
export function referencesOf({ pairs, references }: KitSheet): string[] {
  const drums = [...new Set(pairs.map(({ drum }) => drum))];
  return drums.map(
    (drum) =>
      references.find((one) => one.drum === drum)?.microphone ?? (pairs.find((one) => one.drum === drum) as Pair).a,
  );
}

/** Which of a pair's two to invert where the pair stands for itself: never a reference, where the other one isn't one too. */
export function oneToInvert(sheet: KitSheet, { a, b }: Pick<Pair, 'a' | 'b'>): string {
  const held = referencesOf(sheet);
  return held.includes(b) && !held.includes(a) ? a : b;
}
