/** A demo scene whose end is silent, in both channels or in one while a hi-hat goes on in the other. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readWav } from '../../../src/files/readWav';
import { Gauss } from './gauss';

const KIT = fileURLToPath(new URL('../../../samples/kit/', import.meta.url));

export interface SilentEnd {
  a: Float32Array;
  b: Float32Array;
  sampleRate: number;
}

/** a stroke every so many seconds, and the time in which it falls by 60 dB */
const STROKE_SECONDS = 0.125;
const DECAY_SECONDS = 0.06;

/**
 * @param scene its id
 * @param silent which channel ends with digital silence
 * @param seconds of that end
 */
export function silentEnd(scene: string, silent: 'a' | 'b' | 'both', seconds: number): SilentEnd {
  const wav = readWav(readFileSync(`${KIT}${scene}.wav`));
  const { sampleRate } = wav;
  const draw = new Gauss(77);
  const hat = (): Float32Array =>
    Float32Array.from({ length: Math.round(seconds * sampleRate) }, (_, i) => {
      const t = (i / sampleRate) % STROKE_SECONDS;
      return 0.1 * draw.next() * 10 ** ((-3 * t) / DECAY_SECONDS);
    });
  const none = (): Float32Array => new Float32Array(Math.round(seconds * sampleRate));
  const ends = { a: silent === 'b' ? hat() : none(), b: silent === 'a' ? hat() : none() };
  const joined = (x: Float32Array, end: Float32Array): Float32Array => {
    const out = new Float32Array(x.length + end.length);
    out.set(x);
    out.set(end, x.length);
    return out;
  };
  return { a: joined(wav.read(0), ends.a), b: joined(wav.read(1), ends.b), sampleRate };
}
