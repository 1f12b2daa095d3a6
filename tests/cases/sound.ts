/** What renderings of one or many microphones share: a stretch of sound, an echo of a blow, capsule and converter, late sound. */

import { type Biquad, butterworthLowPass, highPass2, lowPass1, lowPass2, runBiquad } from '../../samples/model/biquad';
import { addBlow, type Blow, type Drum, type Side } from '../../samples/model/drum';
import { INNER_RATE, Loop } from '../../samples/model/loop';
import { microphoneFilters } from '../../samples/model/microphone';
import type { Random } from '../../samples/model/random';
import type { Room } from '../../samples/model/room';
import { speedOfSound } from '../../src/reading/acoustics';
import { resample } from '../support/sound/resample';
import type { CaseMicrophone, KitCase } from './case';
import { TEMPERATURE_C } from './truth';

/** m/s */
export const SPEED = speedOfSound(TEMPERATURE_C);
/** what an echo of a blow holds; the last part fades out */
const ECHO_SECONDS = 0.5;
const ECHO_FADE_SECONDS = 0.1;
const ECHOES = 60;
const TAIL_BLOCK = 4096;
/** different strokes as far as their noise goes; place, force and time differ from blow to blow anyway */
export const NOISES = 5;

export const STROKE_FILTERS: Biquad[] = [highPass2(1200, 0.7, INNER_RATE), lowPass2(9000, 0.7, INNER_RATE)];
export const OWN_DECAY60_SECONDS = 0.09;
export const METAL_FILTERS: Biquad[] = [highPass2(3000, 0.7, INNER_RATE), lowPass2(11000, 0.7, INNER_RATE)];

/** A stretch of the inner rate that ends where it ends. */
export class Strip extends Loop {
  override add(index: number, value: number): void {
    if (index < this.samples.length) this.samples[index] += value;
  }

  /** In place, silence before the beginning. */
  filterOnce(filters: readonly Biquad[]): void {
    for (const filter of filters) runBiquad(filter, this.samples, this.samples, [0, 0]);
  }

  addShifted(other: Strip, seconds: number, gain: number): void {
    const shift = Math.round(seconds * INNER_RATE);
    const end = Math.min(other.samples.length, this.samples.length - shift);
    for (let i = Math.max(0, -shift); i < end; i++) this.samples[i + shift] += gain * other.samples[i];
  }
}

/** The blow as it leaves on one side, 1 m off, from its onset at 0, dulled by what sends it back. */
export function makeEcho(drum: Drum, blow: Blow, side: Side, dullHz: number): Strip {
  const strip = new Strip(ECHO_SECONDS * INNER_RATE);
  addBlow(strip, drum, { ...blow, timeSeconds: 0 }, { side, at: null }, SPEED);
  strip.filterOnce([lowPass1(dullHz, INNER_RATE)]);
  const fade = ECHO_FADE_SECONDS * INNER_RATE;
  const { samples } = strip;
  for (let i = 0; i < fade; i++) samples[samples.length - 1 - i] *= i / fade;
  return strip;
}

/** Capsule, converter, and the late sound of the room, at the output's rate. `ear` is used up. */
export function recordEar(
  ear: Strip,
  microphone: CaseMicrophone,
  { converter, sampleRate }: Pick<KitCase, 'converter' | 'sampleRate'>,
  tail: Random,
): Float64Array {
  const filters = microphoneFilters(microphone.response);
  const { driver } = microphone;
  if (driver) {
    filters.push(...butterworthLowPass(driver.lowPassHz, driver.order & ~1, INNER_RATE));
    if (driver.order % 2 === 1) filters.push(lowPass1(driver.lowPassHz, INNER_RATE));
  }
  if (converter === 'causal') filters.push(...butterworthLowPass(19000, 8, INNER_RATE));
  ear.filterOnce(filters);
  const out = resample(ear.samples, INNER_RATE, sampleRate, converter === 'causal' ? 'interpolate' : 'converter');
  if (microphone.room && !microphone.dead) addTail(out, microphone.room, sampleRate, tail);
  return out;
}

/** Late sound: sparse echoes of random time and sign that thin out; different at each microphone. */
function addTail(out: Float64Array, room: Room, sampleRate: number, random: Random): void {
  const source = out.slice();
  runBiquad(lowPass1(room.dullHz, sampleRate), source, source, [0, 0]);
  const alpha = Math.log(1000) / room.tail60Seconds;
  const gain = 10 ** (room.tailDb / 20);
  const span = room.tail60Seconds * 0.6;
  const echoes = Array.from({ length: ECHOES }, (_, echo) => {
    const t = 0.012 + (span * (echo + random.uniform())) / ECHOES;
    const g = gain * Math.exp(-alpha * t) * (random.uniform() < 0.5 ? -1 : 1);
    return { shift: Math.round(t * sampleRate), g };
  });
  // block by block, so that what is read and written stays in the cache
  for (let from = 0; from < out.length; from += TAIL_BLOCK) {
    const end = Math.min(out.length, from + TAIL_BLOCK);
    for (const { shift, g } of echoes)
      for (let i = Math.max(from, shift); i < end; i++) out[i] += g * source[i - shift];
  }
}
