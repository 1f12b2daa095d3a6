/** Which of the hits that are found in a sound are the ones that a reading stands on: the reading counts its seconds from elsewhere. */

/** how closely they must fall together, s: both are found to within a block, and a drum's arrival lies about as long before each */
const NEAR_SECONDS = 0.006;
const LEAST_SHARE = 0.8;
const LEAST_HITS = 3;

/**
 * The shift at which most of them fall together, by trying each pair.
 * @param found in the sound, s, ascending
 * @param heard by the reading, s of its stream
 * @param periodSeconds after which the stream comes round again; null: it doesn't
 * @returns those of `found`, ascending; none where the two don't fit
 */
export function ownHits(found: readonly number[], heard: readonly number[], periodSeconds: number | null): number[] {
  let best: number[] = [];
  for (const one of heard.slice(0, 4)) {
    for (const at of found) {
      const own = new Set<number>();
      let missed = 0;
      for (const other of heard) {
        const wanted = wrapped(other - one + at, periodSeconds);
        const match = found.find((x) => Math.abs(x - wanted) <= NEAR_SECONDS);
        if (match !== undefined) own.add(match);
        else if (periodSeconds !== null || wanted >= 0) missed += 1;
      }
      const enough = own.size >= Math.min(LEAST_HITS, heard.length) && missed <= (1 - LEAST_SHARE) * heard.length;
      if (enough && own.size > best.length) best = [...own].sort((x, y) => x - y);
    }
  }
  return best;
}

const wrapped = (at: number, period: number | null): number =>
  period === null ? at : ((at % period) + period) % period;
