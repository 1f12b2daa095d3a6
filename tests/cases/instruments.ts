/** The drums that cases are drawn from, and drawn variations of them. */
import {
  FLOOR_TOM,
  FLOOR_TOM_PLACE,
  HAND_DRUM,
  HAND_DRUM_PLACE,
  KICK,
  KICK_PLACE,
  SNARE,
  SNARE_PLACE,
} from '../../samples/model/barn';
import type { Drum } from '../../samples/model/drum';
import type { Point } from '../../samples/model/room';
import type { Draw } from './draw';

export interface Instrument {
  id: string;
  drum: Drum;
  /** where the blows land on average */
  place: Point;
}

const RACK_TOM: Drum = {
  ...FLOOR_TOM,
  head: [2.75, 2.25, 0.84],
  radiusM: 0.152,
  depthM: 0.25,
  lowestHz: 138,
  opposedHz: 214,
  decay60Seconds: 0.6,
};

export const KIT = {
  snare: { id: 'snare', drum: SNARE, place: SNARE_PLACE },
  kick: { id: 'kick', drum: KICK, place: KICK_PLACE },
  'rack tom': { id: 'rack tom', drum: RACK_TOM, place: [2.77, 2.22, 0.84] },
  'floor tom': { id: 'floor tom', drum: FLOOR_TOM, place: FLOOR_TOM_PLACE },
  'hand drum': { id: 'hand drum', drum: HAND_DRUM, place: HAND_DRUM_PLACE },
} satisfies Record<string, Instrument>;
export type InstrumentId = keyof typeof KIT;

export const HI_HAT_PLACE: Point = [1.85, 2.65, 0.88];
export const RIDE_PLACE: Point = [3.5, 2.5, 1.15];

/** The same drum tuned, damped and struck another way; its size and place stay. */
export function drawInstrument(id: InstrumentId, draw: Draw): Instrument {
  const { drum, place } = KIT[id];
  const tuning = draw.ratio(0.8, 1.25);
  const ringing = draw.ratio(2, id === 'kick' ? 40 : 25);
  return {
    id,
    place,
    drum: {
      ...drum,
      lowestHz: drum.lowestHz * tuning,
      opposedHz: drum.opposedHz * tuning * draw.ratio(0.94, 1.06),
      otherHeadRatio: drum.otherHeadRatio * draw.ratio(0.9, 1.1),
      decay60Seconds: drum.decay60Seconds * draw.ratio(0.5, 1.4),
      tone: drum.tone * ringing,
      contactSeconds: drum.contactSeconds * draw.ratio(0.65, 4),
      clickSeconds: draw.chance(0.4) ? 0 : drum.clickSeconds * draw.ratio(0.7, 2),
      // recordings hold 7–29 dB less above 2 kHz than in 40–250 Hz
      crack: drum.crack * ringing ** 0.85 * draw.ratio(0.5, 3),
      wires: drum.wires * ringing ** 0.7 * draw.ratio(0.5, 1.5),
    },
  };
}
