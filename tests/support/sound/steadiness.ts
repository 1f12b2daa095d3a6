/** How often an answer comes and goes although nothing was changed: looked at ten times a second. */
import { Engine } from '../../../src/dsp/engine';
import { type Flat, flat } from '../readings/flat';

export interface Steadiness {
  readings: Flat[];
  /** how often the state of a drum left `measured`, whether or not it came back */
  lost: number;
  /** how often a drum's delay went by more than its own spread and came back */
  jumps: number;
  /** looks at which a drum was said to move or to have moved */
  moves: number;
}

/** what is still one answer, samples, where hits repeat more closely than that */
const LEAST_SPREAD_SAMPLES = 0.1;

interface Drum {
  measured: boolean;
  delay: number;
  /** where it was before it went by more than its spread; NaN: it hasn't */
  left: number;
}

/** A recording in which nobody moves anything, once and whole. */
export function steadiness(a: Float32Array, b: Float32Array, sampleRate: number): Steadiness {
  const engine = new Engine(sampleRate);
  const step = Math.round(sampleRate / 10);
  const drums = new Map<number, Drum>();
  const found: Steadiness = { readings: [], lost: 0, jumps: 0, moves: 0 };
  const look = (): void => {
    const r = flat(engine.reading());
    found.readings.push(r);
    for (const { id, state, reason, delaySamples, spreadSamples } of r.drums) {
      const drum = drums.get(id) ?? { measured: false, delay: Number.NaN, left: Number.NaN };
      drums.set(id, drum);
      if (state === 'following' || reason === 'moved') found.moves++;
      if (drum.measured && state !== 'measured') found.lost++;
      drum.measured = state === 'measured';
      if (state !== 'measured' || delaySamples === null) continue;
      const spread = Math.max(spreadSamples ?? 0, LEAST_SPREAD_SAMPLES);
      if (Math.abs(delaySamples - drum.delay) > spread) {
        if (Math.abs(delaySamples - drum.left) <= spread) found.jumps++;
        drum.left = drum.delay;
      }
      drum.delay = delaySamples;
    }
  };
  for (let i = 0; i < a.length; i += step) {
    engine.push(a.subarray(i, i + step), b.subarray(i, i + step));
    look();
  }
  engine.flush();
  look();
  return found;
}
