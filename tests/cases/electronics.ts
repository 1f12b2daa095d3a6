/** What a channel adds on the way to the file: gain, noise, hum, DC, clipping, whole numbers. */
import type { Random } from '../../samples/model/random';
import { pinkNoise } from '../support/sound/pinkNoise';
import type { CaseChannel } from './case';

/** Harmonics of the mains in a badly screened line: level re the first, dB. */
const HARMONICS_DB = [0, -6, -4, -14, -10, -22, -16, -30, -24, -36];

/** @param sound at any scale; all zero: nothing was heard, and levels are then re −20 dBFS */
export function electronics(
  sound: Float64Array,
  channel: CaseChannel,
  random: Random,
  sampleRate: number,
): Float32Array {
  const highest = sound.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
  const peak = highest > 0 ? 10 ** (channel.peakDbfs / 20) : 0.1;
  const gain = highest > 0 ? peak / highest : 0;
  const level = (db: number): number => peak * 10 ** (db / 20);
  const noise = noiseOf(channel, sound.length, random);
  const hum = humOf(channel, sound.length, random, sampleRate);
  const steps = 2 ** (channel.bits - 1);
  const out = new Float32Array(sound.length);
  const noiseLevel = level(channel.noiseDb);
  const humLevel = level(channel.humDb);
  for (let i = 0; i < out.length; i++) {
    const v =
      gain * (sound[i] as number) + noiseLevel * (noise[i] as number) + humLevel * (hum[i] as number) + channel.dc;
    // a converter's largest value is one step below full scale
    const whole = Math.max(-steps, Math.min(steps - 1, Math.round(v * steps)));
    out[i] = whole / (steps - (whole > 0 ? 1 : 0));
  }
  return out;
}

/** RMS 1. */
function noiseOf(channel: CaseChannel, frames: number, random: Random): Float64Array {
  if (channel.noiseDb === Number.NEGATIVE_INFINITY) return new Float64Array(frames);
  if (channel.noiseColour === 'pink') return pinkNoise(frames, () => random.normal());
  return Float64Array.from({ length: frames }, () => random.normal());
}

/** RMS 1. */
function humOf(channel: CaseChannel, frames: number, random: Random, sampleRate: number): Float64Array {
  const out = new Float64Array(frames);
  if (channel.humDb === Number.NEGATIVE_INFINITY) return out;
  // the mains drift by parts in ten thousand
  const hz = channel.humHz * (1 + 2e-4 * (2 * random.uniform() - 1));
  const tones = HARMONICS_DB.map((db, k) => ({
    step: (2 * Math.PI * hz * (k + 1)) / sampleRate,
    amplitude: 10 ** ((db + 6 * random.normal() * (k > 0 ? 1 : 0)) / 20),
    phase: 2 * Math.PI * random.uniform(),
  }));
  const scale = 1 / Math.sqrt(tones.reduce((sum, { amplitude }) => sum + (amplitude * amplitude) / 2, 0));
  for (const { step, amplitude, phase } of tones) {
    for (let i = 0; i < frames; i++) out[i] += scale * amplitude * Math.sin(step * i + phase);
  }
  return out;
}
