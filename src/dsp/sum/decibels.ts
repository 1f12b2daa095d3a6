/** A power in dB, at least −120. Real-time safe: yes. */
export const db = (power: number): number => 10 * Math.log10(Math.max(power, 1e-12));
