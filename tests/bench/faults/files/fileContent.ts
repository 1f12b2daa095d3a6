/** Recordings that are well written, and of which not all, or nothing, can be measured. */
import { seeded } from '../../../support/sound/signals';
import { PAIR, pairChannels } from '../live/pair';
import type { FileFault } from './fileTrial';
import { bytesOf, floatWav, rawWav } from './wavBytes';

const [a, b] = pairChannels(5);
const RATE = 44_100;

type Channels = [a: Float32Array, b: Float32Array];
const made = (change: (x: number, i: number) => [a: number, b: number]): Channels => [
  a.map((x, i) => change(x, i)[0]),
  b.map((x, i) => change(x, i)[1]),
];
const content = (
  name: string,
  channels: () => Channels | [Float32Array, Float32Array, Float32Array, Float32Array],
  told: FileFault['told'],
  more: Partial<FileFault> = {},
): FileFault => ({
  sub: 'content',
  name,
  how: 'floating-point WAV',
  told,
  files: () => [{ name: 'take.wav', bytes: floatWav(channels()) }],
  ...more,
});
const both = (change: (x: number, i: number) => number) => (): Channels => [a.map(change), b.map(change)];
const noise = seeded(5);
const whole = { truth: [PAIR], mustRead: true };
const rate = (hz: number, told: FileFault['told'], more: Partial<FileFault> = {}): FileFault => ({
  sub: 'rate',
  name: `${hz} Hz`,
  how: 'its header says so',
  told,
  files: () => [{ name: 'take.wav', bytes: floatWav([a, b], hz) }],
  // the same samples at another rate are another delay
  truth: [{ ...PAIR, delayMs: (PAIR.delayMs * RATE) / hz }],
  ...more,
});
const OUTSIDE = /its rate is \d+ Hz, and \d+ to \d+ Hz can be measured/;
const NO_SOUND = /values that are no sound|never scaled/;
const GAP = /no sound (in it )?(from|at)/;
const SILENT = /silent/i;
const between = (i: number, from: number, forSeconds: number): boolean =>
  i >= from * RATE && i < (from + forSeconds) * RATE;

export const FILE_CONTENT: readonly FileFault[] = [
  rate(1, OUTSIDE),
  rate(4000, OUTSIDE),
  rate(7999, OUTSIDE),
  rate(768_000, OUTSIDE),
  rate(4_294_967_295, OUTSIDE),
  rate(192_000, 'nothing'),
  rate(96_000, 'nothing'),
  rate(8000, 'may'),
  content(
    'NaN throughout',
    both(() => Number.NaN),
    NO_SOUND,
  ),
  content('NaN in one channel', () => [a, b.map(() => Number.NaN)], NO_SOUND),
  content(
    'NaN for 0.2 s',
    both((x, i) => (between(i, 1.1, 0.2) ? Number.NaN : x)),
    GAP,
    { truth: [PAIR] },
  ),
  content(
    'NaN in ten places',
    both((x, i) => (i % 20_000 < 40 && i > 3000 ? Number.NaN : x)),
    GAP,
    { truth: [PAIR] },
  ),
  content(
    'one sample NaN',
    both((x, i) => (i === 30_000 ? Number.NaN : x)),
    GAP,
    { truth: [PAIR] },
  ),
  content(
    'infinite for 0.1 s',
    both((x, i) => (between(i, 2, 0.1) ? Number.POSITIVE_INFINITY : x)),
    GAP,
    {
      truth: [PAIR],
    },
  ),
  content(
    'values of ±1e30',
    both((x) => x * 1e30),
    NO_SOUND,
  ),
  content(
    'never scaled: ±32768',
    both((x) => x * 32_768),
    NO_SOUND,
    { truth: [PAIR] },
  ),
  content(
    'a burst of 1e30',
    both((x, i) => (between(i, 1.1, 0.001) ? 1e30 : x)),
    GAP,
    { truth: [PAIR] },
  ),
  content(
    'denormal numbers',
    both(() => 1e-40),
    SILENT,
  ),
  content(
    'digital silence',
    both(() => 0),
    SILENT,
  ),
  content('A is silent', () => [a.map(() => 0), b], SILENT),
  content('B is silent', () => [a, b.map(() => 0)], SILENT),
  content('A and B are the same', () => [a, a], /carry the same signal/),
  content(
    'clipped throughout',
    both((x) => Math.max(-0.01, Math.min(0.01, x)) * 100),
    /clip/i,
    { truth: [PAIR] },
  ),
  content('0.3 DC in A', () => made((x) => [x + 0.3, x]).map((c, i) => (i === 0 ? c : b)) as Channels, 'nothing', {
    truth: [PAIR],
  }),
  content('unrelated noise', () => [a.map(() => noise() - 0.5), b.map(() => noise() - 0.5)], 'may'),
  content('one hit', () => [a.subarray(0, RATE / 2), b.subarray(0, RATE / 2)], /hits?/i),
  content('10 ms', () => [a.subarray(0, 441), b.subarray(0, 441)], 'may'),
  content('one sample', () => [a.subarray(0, 1), b.subarray(0, 1)], 'may'),
  content(
    'hum of −12 dBFS',
    both((x, i) => x + 0.25 * Math.sin((2 * Math.PI * 50 * i) / RATE)),
    'may',
    { truth: [PAIR] },
  ),
  content('four channels', () => [a, b, b, a], /channels 1 and 2 of 4/, whole),
  {
    sub: 'content',
    name: 'more bytes after the samples',
    how: 'a chunk of text at the end',
    told: 'nothing',
    files: () => {
      const bytes = floatWav([a, b]);
      const out = new Uint8Array(bytes.length + 9);
      out.set(bytes);
      out.set(bytesOf('LIST\u00ff\u00ff'), bytes.length);
      return [{ name: 'take.wav', bytes: out }];
    },
    ...whole,
  },
  {
    sub: 'content',
    name: '8 bits, and quiet',
    how: 'integers of one byte, ±2 steps',
    told: 'may',
    files: () => {
      const data = Uint8Array.from({ length: 2 * a.length }, (_, i) =>
        Math.round(128 + 2 * ((i % 2 === 0 ? a : b)[i >> 1] as number)),
      );
      return [{ name: 'take.wav', bytes: rawWav({ bits: 8, data }) }];
    },
    truth: [PAIR],
  },
];
