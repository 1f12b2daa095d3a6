/** What is true of a case, by plain geometry. */

import { distance, type Point } from '../../samples/model/room';
import { speedOfSound } from '../../src/reading/acoustics';
import type { CaseMicrophone, DrumTruth, KitCase, Strike } from './case';

export const TEMPERATURE_C = 20;

/** Where the microphone is when the drum sounds. */
export function standsAt(microphone: CaseMicrophone, timeSeconds: number): Point {
  const { at, move } = microphone;
  if (!move || timeSeconds <= move.fromSeconds) return at;
  if (timeSeconds >= move.toSeconds) return move.to;
  const share = (timeSeconds - move.fromSeconds) / (move.toSeconds - move.fromSeconds);
  return [0, 1, 2].map(
    (i) => (at[i] as number) + share * ((move.to[i] as number) - (at[i] as number)),
  ) as unknown as Point;
}

function arrival(microphone: CaseMicrophone, { timeSeconds, place }: Strike): number {
  return timeSeconds + distance(standsAt(microphone, timeSeconds), place) / speedOfSound(TEMPERATURE_C);
}

/** One entry for each source that is struck and that both hear; empty where nothing can be told. A flam's grace stroke is a hit too. */
export function truthOf(made: KitCase): DrumTruth[] {
  if (made.noAnswer !== null) return [];
  return made.sources.flatMap((source): DrumTruth[] => {
    if (source.a === null || source.b === null || source.ring !== null) return [];
    const hits = source.strikes.map((strike) => {
      const a = arrival(made.a, strike);
      const b = arrival(made.b, strike);
      return { timeSeconds: Math.min(a, b), delaySamples: (b - a) * made.sampleRate };
    });
    const alike = (source.a === 'batter') === (source.b === 'batter');
    return [
      {
        id: source.id,
        metal: source.metal !== null,
        polarity: alike !== made.wiredInverted ? 'same' : 'inverted',
        delaySamples: hits.reduce((sum, hit) => sum + hit.delaySamples, 0) / hits.length,
        hits,
      },
    ];
  });
}

/** Path of a delay at the case's temperature, cm. */
export function samplesToCm(samples: number, sampleRate: number): number {
  return (samples / sampleRate) * speedOfSound(TEMPERATURE_C) * 100;
}
