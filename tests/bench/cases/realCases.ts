/** The real recordings and hard variants of them, each with its truth. */
import { readFileSync } from 'node:fs';
import { Random } from '../../../samples/model/random';
import { readWav } from '../../../src/files/readWav';
import type { Polarity } from '../../../src/reading/reading';
import type { Answer, Judgement } from '../../cases/judge';
import { samplesToCm } from '../../cases/truth';
import { pinkNoise } from '../../support/sound/pinkNoise';
import { type RealRecording, realPath } from '../../support/sound/realRecordings';
import { resample, shift } from '../../support/sound/resample';

export const VARIANTS = [
  'as recorded',
  'pink noise −60 dB',
  'pink noise −50 dB',
  'pink noise −40 dB',
  'hum −50 dB',
  'hum −40 dB',
  'A 30 dB down',
  'B inverted',
  'B + 0.37 samples',
  'B + 7.5 samples',
  'at 48 kHz',
  'at 96 kHz',
] as const;
export type Variant = (typeof VARIANTS)[number];

/** Variants are read for 12 hits of one drum; of a groove as long as that takes for each drum. */
export const VARIANT_HITS = 12;
const VARIANT_SECONDS = 12;
const GROOVE_SECONDS = 25;
const NOISE_SEED = 20000;

interface TrueDrum {
  id: string;
  delaySamples: number;
  toleranceSamples: number;
  /** null: either */
  polarity: Polarity | null;
}

export interface RealCase {
  a: Float32Array;
  b: Float32Array;
  sampleRate: number;
  hits: number | undefined;
  judge: RealJudge;
}

/** Whichever drum an answer fits is the one that it is taken to be about: the files don't say which hit is whose. */
export class RealJudge {
  constructor(
    private readonly drums: readonly TrueDrum[],
    private readonly sampleRate: number,
  ) {}

  judge(answer: Answer): Judgement {
    let best: Judgement = {
      right: false,
      polarityRight: false,
      errorCm: Number.NaN,
      trueSamples: Number.NaN,
      drum: null,
    };
    for (const drum of this.drums) {
      const error = answer.delaySamples - drum.delaySamples;
      const polarityRight = drum.polarity === null || answer.polarity === drum.polarity;
      const right = polarityRight && Math.abs(error) <= drum.toleranceSamples;
      const errorCm = samplesToCm(error, this.sampleRate);
      if (best.drum === null || Math.abs(errorCm) < Math.abs(best.errorCm)) {
        best = { right, polarityRight, errorCm, trueSamples: drum.delaySamples, drum: drum.id };
      }
    }
    return best;
  }
}

/** A drum of a groove is read from fewer and worse hits than one alone. */
const GROOVE_TOLERANCE: Record<string, number> = { kick: 3, snare: 3, 'closed hi-hat': 6 };

function trueDrums(t: RealRecording): TrueDrum[] {
  if (t.perDrum) {
    return Object.entries(t.perDrum).map(([id, { delaySamples, sameShare }]) => ({
      id,
      delaySamples,
      toleranceSamples: GROOVE_TOLERANCE[id] ?? 6,
      polarity: sameShare > 0.9 ? 'same' : sameShare < 0.1 ? 'inverted' : null,
    }));
  }
  const { delaySamples, toleranceSamples, polarity } = t;
  if (delaySamples === undefined || toleranceSamples === undefined || polarity === undefined) return [];
  return [{ id: 'drum', delaySamples, toleranceSamples, polarity }];
}

export function realCase(t: RealRecording, variant: Variant): RealCase {
  const wav = readWav(readFileSync(realPath(t.file)));
  const whole = { a: wav.read(0), b: wav.read(1) };
  const drums = trueDrums(t);
  const { sampleRate } = wav;
  if (variant === 'as recorded') {
    return { ...whole, sampleRate, hits: undefined, judge: new RealJudge(drums, sampleRate) };
  }
  const groove = t.class === 'groove';
  const frames = Math.round((groove ? GROOVE_SECONDS : VARIANT_SECONDS) * sampleRate);
  const made = vary(whole.a.subarray(0, frames), whole.b.subarray(0, frames), sampleRate, variant, t.file);
  const changed = drums.map((drum): TrueDrum => {
    const scale = made.sampleRate / sampleRate;
    const polarity = drum.polarity && made.inverted ? (drum.polarity === 'same' ? 'inverted' : 'same') : drum.polarity;
    return {
      ...drum,
      polarity,
      delaySamples: (drum.delaySamples + made.laterSamples) * scale,
      toleranceSamples: drum.toleranceSamples * scale,
    };
  });
  return {
    a: Float32Array.from(made.a),
    b: Float32Array.from(made.b),
    sampleRate: made.sampleRate,
    hits: groove ? undefined : VARIANT_HITS,
    judge: new RealJudge(changed, made.sampleRate),
  };
}

interface Varied {
  a: ArrayLike<number>;
  b: ArrayLike<number>;
  sampleRate: number;
  inverted: boolean;
  laterSamples: number;
}

function vary(a: Float32Array, b: Float32Array, sampleRate: number, variant: Variant, file: string): Varied {
  const same = { a, b, sampleRate, inverted: false, laterSamples: 0 };
  const random = new Random(NOISE_SEED, `${file} ${variant}`);
  const both = (change: (x: Float32Array) => ArrayLike<number>): Varied => ({ ...same, a: change(a), b: change(b) });
  switch (variant) {
    case 'pink noise −60 dB':
    case 'pink noise −50 dB':
    case 'pink noise −40 dB':
      return both((x) =>
        plus(
          x,
          pinkNoise(x.length, () => random.normal()),
          levelIn(variant),
        ),
      );
    case 'hum −50 dB':
    case 'hum −40 dB':
      return both((x) => plus(x, hum(x.length, sampleRate, random), levelIn(variant)));
    case 'A 30 dB down':
      // what its 16 bits leave of it then
      return { ...same, a: a.map((v) => Math.round(v * 10 ** (-30 / 20) * 32768) / 32768) };
    case 'B inverted':
      return { ...same, b: b.map((v) => -v), inverted: true };
    case 'B + 0.37 samples':
      return { ...same, b: shift(b, 0.37), laterSamples: 0.37 };
    case 'B + 7.5 samples':
      return { ...same, b: shift(b, 7.5), laterSamples: 7.5 };
    case 'at 48 kHz':
      return { ...both((x) => resample(x, sampleRate, 48000, 'full')), sampleRate: 48000 };
    case 'at 96 kHz':
      return { ...both((x) => resample(x, sampleRate, 96000, 'full')), sampleRate: 96000 };
    case 'as recorded':
      return same;
  }
}

/** The figure in a variant's name, dB. */
const levelIn = (variant: Variant): number => -Number(/−(\d+) dB/.exec(variant)?.[1]);

/** @param db RMS of what is added re the peak of x */
function plus(x: Float32Array, added: Float64Array, db: number): Float32Array {
  const gain = 10 ** (db / 20) * x.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
  return x.map((v, i) => v + gain * (added[i] as number));
}

/** 50 Hz and its first nine harmonics at falling levels and drawn phases, RMS 1. */
function hum(frames: number, sampleRate: number, random: Random): Float64Array {
  const tones = Array.from({ length: 10 }, (_, k) => ({
    hz: 50 * (k + 1),
    level: 1 / (k + 1),
    phase: 2 * Math.PI * random.uniform(),
  }));
  const rms = Math.sqrt(tones.reduce((sum, { level }) => sum + (level * level) / 2, 0));
  return Float64Array.from({ length: frames }, (_, i) => {
    let v = 0;
    for (const { hz, level, phase } of tones) v += level * Math.sin((2 * Math.PI * hz * i) / sampleRate + phase);
    return v / rms;
  });
}
