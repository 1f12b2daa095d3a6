/** Toms that nobody strikes, and that ring with each stroke of kick and snare: tones that swell and die away, no push. */
import { distance } from '../../../samples/model/room';
import { speedOfSound } from '../../../src/reading/acoustics';
import type { CaseSource, Ring, Strike } from '../case';
import { Draw } from '../draw';
import type { Instrument } from '../instruments';
import { facing, type StandingPair } from '../places';
import { TEMPERATURE_C } from '../truth';

/** Kick or snare, and when it is struck. */
export interface Rousing {
  instrument: Instrument;
  strikes: readonly Strike[];
}

export function ringing(tom: Instrument, pair: StandingPair, rousing: readonly Rousing[], seed: number): CaseSource[] {
  const draw = new Draw(seed, `groove ring ${tom.id}`);
  // damped, turned away, or tuned elsewhere
  if (!draw.chance(0.65)) return [];
  const { drum } = tom;
  // of the tone of the drum that rouses it
  const gain = 10 ** (draw.between(-36, -20) / 20);
  const turn = (): number => draw.between(0, 2 * Math.PI);
  const tone = (hz: number, level: number, decay60Seconds: number): Ring['tones'][number] => {
    return { hz, level, decay60Seconds, rise60Seconds: draw.between(0.05, 0.15), turnA: turn(), turnB: turn() };
  };
  const tones = [tone(drum.lowestHz, 0.6, drum.decay60Seconds), tone(drum.opposedHz, 0.25, 0.7 * drum.decay60Seconds)];
  const strikes = rousing.flatMap(({ instrument, strikes: blows }) =>
    blows.map(
      ({ timeSeconds, force, place }): Strike => ({
        timeSeconds: timeSeconds + distance(place, drum.head) / speedOfSound(TEMPERATURE_C),
        force: gain * force * instrument.drum.tone,
        place: drum.head,
      }),
    ),
  );
  return [
    {
      id: `${tom.id} ringing along`,
      drum: null,
      metal: null,
      ring: { tones },
      spread: null,
      strikes,
      a: facing(tom, pair.a.at),
      b: facing(tom, pair.b.at),
    },
  ];
}
