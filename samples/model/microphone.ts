/** A microphone as a chain of causal filters: what makes two of them unlike without hiding the arrival. */
import { type Biquad, butterworthLowPass, highPass1, highPass2, lowPass1, lowPass2, peak } from './biquad';
import { INNER_RATE } from './loop';

export interface MicrophoneResponse {
  lowCutHz: number;
  lowCutOrder: 1 | 2;
  /** the diaphragm's upper end: order 2 with its resonance, order 1 a slow one */
  highCutHz: number;
  highCutOrder: 1 | 2;
  presenceHz: number;
  presenceDb: number;
  /** a loudspeaker's cone as a microphone: nothing above this, fourth order */
  coneHz?: number;
}

export function microphoneFilters(m: MicrophoneResponse): Biquad[] {
  return [
    m.lowCutOrder === 1 ? highPass1(m.lowCutHz, INNER_RATE) : highPass2(m.lowCutHz, Math.SQRT1_2, INNER_RATE),
    m.highCutOrder === 1 ? lowPass1(m.highCutHz, INNER_RATE) : lowPass2(m.highCutHz, 0.8, INNER_RATE),
    peak(m.presenceHz, m.presenceDb, 0.9, INNER_RATE),
    ...(m.coneHz === undefined ? [] : butterworthLowPass(m.coneHz, 4, INNER_RATE)),
  ];
}

/** A moving coil with a rising presence, one that is darker, a small and a large diaphragm: types, not models. */
export const MOVING_COIL: MicrophoneResponse = {
  lowCutHz: 70,
  lowCutOrder: 1,
  highCutHz: 17000,
  highCutOrder: 2,
  presenceHz: 5500,
  presenceDb: 4,
};
export const DARK_MOVING_COIL: MicrophoneResponse = {
  lowCutHz: 35,
  lowCutOrder: 2,
  highCutHz: 13000,
  highCutOrder: 1,
  presenceHz: 3800,
  presenceDb: 2.5,
};
export const SMALL_DIAPHRAGM: MicrophoneResponse = {
  lowCutHz: 25,
  lowCutOrder: 1,
  highCutHz: 20000,
  highCutOrder: 2,
  presenceHz: 9000,
  presenceDb: 1.5,
};
export const LARGE_DIAPHRAGM: MicrophoneResponse = {
  lowCutHz: 40,
  lowCutOrder: 1,
  highCutHz: 16000,
  highCutOrder: 1,
  presenceHz: 8000,
  presenceDb: 3,
};
/** A small loudspeaker's cone, worked backwards. */
export const CONE: MicrophoneResponse = {
  lowCutHz: 30,
  lowCutOrder: 2,
  highCutHz: 6000,
  highCutOrder: 1,
  presenceHz: 70,
  presenceDb: 6,
  coneHz: 180,
};
