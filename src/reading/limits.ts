/** How much a reading holds, and the bounds of what it may say: facts that engine, words and screen share. */

/** the newest hits of all drums that a reading tells of */
export const HITS_KEPT = 32;

/** hits of other drums than these few are left out */
export const DRUMS_KEPT = 8;

/** the newest hits of one drum from which its answer is made */
export const POOL_HITS = 16;

/** hits of one drum that an answer needs at least */
export const HITS_NEEDED = 4;

/** two witnesses that lie closer than this speak of one arrival, s (10 cm of path) */
export const WITNESS_SECONDS = 0.0003;

/** below this a channel counts as silent, and no first push is looked for: −80 dBFS */
export const QUIET_PEAK = 1e-4;
export const QUIET_DBFS = 20 * Math.log10(QUIET_PEAK);

/** largest input offset that may be taken out, s: 20 ms */
export const MAX_OFFSET_SECONDS = 0.02;
