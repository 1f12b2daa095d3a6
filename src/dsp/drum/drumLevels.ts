/** How loud each drum is in each microphone: what tells whose microphone it is. */
import { BANDS_A_CHANNEL, FINGERPRINT, NEAR_BANDS_FROM } from '../hit/fingerprint';
import type { HitStore } from '../hit/hitStore';

/** loudest hits by which a drum's level is known: one accident isn't its level */
const TOP_HITS = 2;

export class DrumLevels {
  /** the levels of each drum's loudest hits above 1 kHz in A and in B, dB, loudest first */
  private readonly topA: Float64Array;
  private readonly topB: Float64Array;

  constructor(drums: number) {
    this.topA = new Float64Array(drums * TOP_HITS).fill(Number.NEGATIVE_INFINITY);
    this.topB = new Float64Array(drums * TOP_HITS).fill(Number.NEGATIVE_INFINITY);
  }

  /** Real-time safe: yes. */
  forget(d: number): void {
    this.topA.fill(Number.NEGATIVE_INFINITY, d * TOP_HITS, (d + 1) * TOP_HITS);
    this.topB.fill(Number.NEGATIVE_INFINITY, d * TOP_HITS, (d + 1) * TOP_HITS);
  }

  /** The hit in slot s is of drum d. Real-time safe: yes. */
  note(store: HitStore, s: number, d: number): void {
    keepLoudest(this.topA, d, nearLevel(store, s * FINGERPRINT));
    keepLoudest(this.topB, d, nearLevel(store, s * FINGERPRINT + BANDS_A_CHANNEL));
  }

  /** Level of a drum's loudest hits above 1 kHz in a channel, dB; −Infinity: not heard. Real-time safe: yes. @param hits that it has */
  inA(d: number, hits: number): number {
    return meanOf(this.topA, d, hits);
  }

  inB(d: number, hits: number): number {
    return meanOf(this.topB, d, hits);
  }
}

function keepLoudest(top: Float64Array, d: number, level: number): void {
  if (Number.isNaN(level)) return;
  let x = level;
  for (let i = d * TOP_HITS; i < (d + 1) * TOP_HITS; i++) {
    const before = top[i] as number;
    if (x <= before) continue;
    top[i] = x;
    x = before;
  }
}

/** Level of one hit above 1 kHz in A, dB. Real-time safe: yes. */
export const levelOfHit = (store: HitStore, s: number): number => nearLevel(store, s * FINGERPRINT);

/** Level above 1 kHz in one channel, dB: what a microphone that stands at a drum hears of it, and hardly of others. */
function nearLevel(store: HitStore, at: number): number {
  let power = 0;
  for (let b = NEAR_BANDS_FROM; b < BANDS_A_CHANNEL; b++) power += 10 ** ((store.print[at + b] as number) / 10);
  return 10 * Math.log10(power);
}

function meanOf(top: Float64Array, d: number, hits: number): number {
  const n = Math.min(hits, TOP_HITS);
  let sum = 0;
  for (let i = 0; i < n; i++) sum += top[d * TOP_HITS + i] as number;
  return n > 0 ? sum / n : Number.NEGATIVE_INFINITY;
}
