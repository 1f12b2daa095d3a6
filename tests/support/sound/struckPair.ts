/**
 * Two channels of a made-up drum for tests that need a reading and not a truth about drums: bursts of decaying noise
 * and tone with a sharp onset, B delayed by whole samples, over a little noise of its own in each channel.
 */
export interface StruckPairOptions {
  sampleRate: number;
  hits: number;
  /** B later by so many whole samples; negative: earlier */
  delaySamples: number;
  polarity: 'same' | 'inverted';
  /** silence before the first hit and after the last, s */
  leadSeconds?: number;
  tailSeconds?: number;
  seed?: number;
}

export function struckPair(options: StruckPairOptions): { a: Float32Array; b: Float32Array } {
  const { sampleRate, hits, delaySamples, polarity, leadSeconds = 0.4, tailSeconds = 0.4, seed = 1 } = options;
  const random = uniform(seed);
  const spacing = Math.round(0.5 * sampleRate);
  const lead = Math.round(leadSeconds * sampleRate);
  const length = lead + hits * spacing + Math.round(tailSeconds * sampleRate);
  const struck = new Float64Array(length);
  for (let hit = 0; hit < hits; hit++) {
    const at = lead + hit * spacing;
    const level = 0.4 + 0.1 * random();
    for (let i = 0; i < spacing && at + i < length; i++) {
      const t = i / sampleRate;
      const tone = Math.cos(2 * Math.PI * 190 * t) * Math.exp(-18 * t);
      struck[at + i] += level * (0.7 * tone + 0.4 * random() * Math.exp(-60 * t));
    }
  }
  const sign = polarity === 'inverted' ? -1 : 1;
  const a = new Float32Array(length);
  const b = new Float32Array(length);
  for (let i = 0; i < length; i++) {
    a[i] = struck[i] + 1e-4 * random();
    b[i] = 0.8 * sign * (struck[i - delaySamples] ?? 0) + 1e-4 * random();
  }
  return { a, b };
}

/** −1…+1, the same numbers for the same seed (a = 1664525, c = 1013904223: Numerical Recipes' quick generator, section 7.1). */
function uniform(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 31 - 1;
  };
}
