/** What is true of a simulated take, by plain geometry. */
import { distance } from '../../../samples/model/room';
import { speedOfSound } from '../../../src/reading/acoustics';
import type { Polarity } from '../../../src/reading/reading';
import { TEMPERATURE_C } from '../../cases/truth';
import type { SimulatedTake } from './simulatedKit';

export interface TakeTruth {
  /** of each track */
  files: string[];
  /** ascending; when the first microphone hears it */
  hits: { seconds: number; drum: string }[];
  drums: DrumTruth[];
  /** of each track: it hears the low end only, so that nobody can tell when a drum arrives */
  lowEndOnly: boolean[];
}

/** A drum as each track hears it. */
export interface DrumTruth {
  drum: string;
  metal: boolean;
  /** samples from the stroke to its arrival, mean over the strokes; NaN: nothing arrives */
  arrivalSamples: number[];
  /** of the first push: −1 heard from the struck head, +1 from beyond it; the wiring taken into account */
  signs: (1 | -1)[];
}

export function truthOfTake({ sampleRate, microphones, drums }: SimulatedTake): TakeTruth {
  const speed = speedOfSound(TEMPERATURE_C);
  const hits = drums.flatMap(({ id, strikes }) =>
    strikes.map(({ timeSeconds, place }) => ({
      seconds: timeSeconds + Math.min(...microphones.map(({ at }) => distance(at, place))) / speed,
      drum: id,
    })),
  );
  return {
    files: microphones.map(({ name }) => `${name}.wav`),
    hits: hits.sort((p, q) => p.seconds - q.seconds),
    lowEndOnly: microphones.map(({ driver }) => driver !== null),
    drums: drums.map(({ id, metal, strikes, sides }) => ({
      drum: id,
      metal: metal !== null,
      arrivalSamples: microphones.map(({ at, dead }) => {
        const paths = strikes.map(({ place }) => distance(at, place));
        const mean = paths.reduce((sum, path) => sum + path, 0) / paths.length;
        return dead ? Number.NaN : (mean / speed) * sampleRate;
      }),
      signs: microphones.map((_, m) => (metal || sides[m] === 'batter' ? -1 : 1)),
    })),
  };
}

/** Positive: track b hears the drum later. */
export function pairTruth(drum: DrumTruth, a: number, b: number): { delaySamples: number; polarity: Polarity } {
  return {
    delaySamples: drum.arrivalSamples[b] - drum.arrivalSamples[a],
    polarity: drum.signs[a] === drum.signs[b] ? 'same' : 'inverted',
  };
}
