/** Do the newer hits show something less often than the older ones did? Then a microphone may have been moved. */

/**
 * Of all ways to part the hits in time, with fewer in the newer part, the likeliest against one share for all. Real-time safe: yes.
 * @param shows 1: the hit shows it, oldest first; @param upTo hits looked at end before this one; @param from and begin with this one
 * @returns nats; 0: the newer ones show it as often
 */
export function changeIn(shows: Uint8Array, upTo: number, from = 0): number {
  const hits = upTo - from;
  let members = 0;
  for (let i = 0; i < hits; i++) members += shows[from + i] as number;
  const all = likelihoodOf(members, hits);
  let most = 0;
  let older = 0;
  for (let i = 1; i < hits; i++) {
    older += shows[from + i - 1] as number;
    const newer = members - older;
    if (newer * i >= older * (hits - i)) continue;
    most = Math.max(most, likelihoodOf(older, i) + likelihoodOf(newer, hits - i) - all);
  }
  return most;
}

/** Log likelihood of k of n with the share k/n, nats. */
function likelihoodOf(k: number, n: number): number {
  return k === 0 || k === n ? 0 : k * Math.log(k / n) + (n - k) * Math.log(1 - k / n);
}
