/** The listening path in real Chromium, rendered: delay, level, switching, ceiling. What each is held against stands beside it. */
import FFT from 'fft.js';
import { expect, inject, test } from 'vitest';
import type { ToListen } from '../../../src/listen/messages';
import { type Mix, mixOf, type Version } from '../../../src/listen/version';
import { renderPath } from '../../support/page/renderedPath';
import { withPage } from '../../support/page/withPage';
import { Gauss } from '../../support/sound/gauss';

const BEGIN: ToListen[] = [
  { type: 'level', level: 1 },
  { type: 'play', on: true },
];
const version = (more: Partial<Version>): Version => ({
  id: 'x',
  name: 'X',
  invertB: false,
  delayBSamples: 0,
  trimBDb: 0,
  ...more,
});
const choose = (mix: Mix): ToListen => ({ type: 'mix', mix });

/** Noise that is one loop: every bin of its transform is exact, so no window stands between. */
const PERIOD = 65_536;
function noiseLoop(seed: number, level: number): Float32Array {
  const draw = new Gauss(seed);
  return Float32Array.from({ length: PERIOD }, () => level * draw.next());
}

function spectrum(x: Float32Array): Float64Array {
  const fft = new FFT(x.length);
  const out = new Float64Array(2 * x.length);
  fft.realTransform(out, Float64Array.from(x));
  return out;
}

test.each([44_100, 48_000, 96_000])(
  'at %i Hz B is late by what was asked for, to 0.01 sample from 50 Hz to 10 kHz, and as loud',
  async (rate) => {
    await withPage({}, async ({ page }) => {
      const noise = noiseLoop(7, 0.05);
      let worst = 0;
      let worstDb = 0;
      for (const delay of [0.1, 0.25, 0.5, 3.731, 41.9, 127.499, -0.37, -83.25]) {
        const mix = mixOf(version({ delayBSamples: delay }), 'apart', 1, 1);
        const { left, right } = await renderPath(page, inject('pageUrl'), {
          sampleRate: rate,
          frames: 3 * PERIOD,
          a: noise,
          b: noise,
          asks: [{ frame: 0, asks: [choose(mix), ...BEGIN] }],
        });
        const [a, b] = [left, right].map((one) => spectrum(one.slice(2 * PERIOD)));
        for (let bin = Math.ceil((50 * PERIOD) / rate); bin <= (10_000 * PERIOD) / rate; bin++) {
          const [ar, ai, br, bi] = [a?.[2 * bin], a?.[2 * bin + 1], b?.[2 * bin], b?.[2 * bin + 1]] as [
            number,
            number,
            number,
            number,
          ];
          const w = (2 * Math.PI * bin) / PERIOD;
          // B against A, turned back by what was asked for: what is left is the error
          const [re, im] = [br * ar + bi * ai, bi * ar - br * ai];
          const left = Math.atan2(
            im * Math.cos(w * delay) + re * Math.sin(w * delay),
            re * Math.cos(w * delay) - im * Math.sin(w * delay),
          );
          worst = Math.max(worst, Math.abs(left / w));
          worstDb = Math.max(worstDb, Math.abs(10 * Math.log10((br * br + bi * bi) / (ar * ar + ai * ai))));
        }
      }
      console.log(`${rate} Hz: delay error at most ${worst.toFixed(5)} sample, level error ${worstDb.toFixed(5)} dB`);
      expect(worst).toBeLessThanOrEqual(0.01);
      expect(worstDb).toBeLessThanOrEqual(0.01);
    });
  },
);

/** Largest step from one sample to the next. */
function largestStep(x: Float32Array, from: number, to: number): number {
  let step = 0;
  for (let i = Math.max(1, from); i < to; i++) step = Math.max(step, Math.abs((x[i] as number) - (x[i - 1] as number)));
  return step;
}

const MINUS_60 = 0.001;

test('switching is the ideal crossfade of the two versions, with no step over −60 dBFS, and done within 50 ms', async () => {
  await withPage({}, async ({ page }) => {
    const rate = 48_000;
    // lows at full level and a little of everything: what a click would stand out of
    const loop = Float32Array.from(
      { length: rate },
      (_, i) => 0.4 * Math.sin((2 * Math.PI * 60 * i) / rate) + 0.05 * Math.sin((2 * Math.PI * 410 * i) / rate),
    );
    const from = mixOf(version({}), 'both', 1, 1);
    const to = mixOf(version({ invertB: true, delayBSamples: 61.37, trimBDb: -3 }), 'both', 1, 1);
    const frames = 2 * rate;
    const at = 128 * 300;
    const render = (asks: { frame: number; asks: ToListen[] }[]) =>
      renderPath(page, inject('pageUrl'), { sampleRate: rate, frames, a: loop, b: loop, asks });
    const { left: before } = await render([{ frame: 0, asks: [choose(from), ...BEGIN] }]);
    const { left: after } = await render([{ frame: 0, asks: [choose(to), ...BEGIN] }]);
    const { left: switched } = await render([
      { frame: 0, asks: [choose(from), ...BEGIN] },
      { frame: at, asks: [choose(to)] },
    ]);

    const fade = 0.015 * rate;
    let worst = 0;
    for (let i = rate / 4; i < frames; i++) {
      const share = Math.min(1, Math.max(0, (i - at + 1) / fade));
      const ideal = (1 - share) * (before[i] as number) + share * (after[i] as number);
      worst = Math.max(worst, Math.abs((switched[i] as number) - ideal));
    }
    const steady = Math.max(largestStep(before, rate / 4, frames), largestStep(after, rate / 4, frames));
    const beyond = largestStep(switched, rate / 4, frames) - steady;
    console.log(
      `off the ideal crossfade ${(20 * Math.log10(worst)).toFixed(0)} dBFS; steps beyond the steady ones ${beyond.toExponential(1)}`,
    );
    expect(worst).toBeLessThan(MINUS_60);
    expect(beyond).toBeLessThan(MINUS_60);
    // asked for between two blocks, it is whole by then
    const done = at + 0.05 * rate;
    for (let i = done; i < done + 480; i++) expect(switched[i]).toBeCloseTo(after[i] as number, 6);

    // pressed again and again, faster than it fades
    const quick = await render([
      { frame: 0, asks: [choose(from), ...BEGIN] },
      ...Array.from({ length: 40 }, (_, k) => ({ frame: at + 256 * k, asks: [choose(k % 2 ? from : to)] })),
    ]);
    expect(largestStep(quick.left, rate / 4, frames) - steady).toBeLessThan(MINUS_60);
  });
});

test('turned back up by 3 dB a second, in steps of 0.15 dB, it makes no step over −60 dBFS', async () => {
  await withPage({}, async ({ page }) => {
    const rate = 48_000;
    const loop = Float32Array.from({ length: rate }, (_, i) => 0.4 * Math.sin((2 * Math.PI * 60 * i) / rate));
    const at = (db: number): ToListen => choose(mixOf(version({}), 'both', 1, 10 ** (db / 20)));
    const steps = 80;
    const every = 128 * 19;
    const { left } = await renderPath(page, inject('pageUrl'), {
      sampleRate: rate,
      frames: rate + steps * every,
      a: loop,
      b: loop,
      asks: [
        { frame: 0, asks: [at(-12), ...BEGIN] },
        ...Array.from({ length: steps }, (_, k) => ({
          frame: 128 * 100 + k * every,
          asks: [at(-12 + 0.15 * (k + 1))],
        })),
      ],
    });
    const loudest = largestStep(left, left.length - rate / 2, left.length);
    expect(Math.max(...left.subarray(-rate / 2).map(Math.abs))).toBeCloseTo(0.8, 3);
    // never steeper than the tone itself is when it is back
    expect(largestStep(left, rate / 8, left.length) - loudest).toBeLessThan(MINUS_60);
    // nor do its gains: between two crests of the tone it grows by no more than a step
    const crest = (from: number): number => Math.max(...left.subarray(from, from + 800).map(Math.abs));
    for (let i = rate / 4; i + 1600 < left.length; i += 800)
      expect(20 * Math.log10(crest(i + 800) / crest(i))).toBeLessThan(0.16);
  });
});

test('it begins silent, comes up over 50 ms, and stops, without a step', async () => {
  await withPage({}, async ({ page }) => {
    const rate = 48_000;
    const loop = Float32Array.from({ length: rate }, (_, i) => 0.4 * Math.cos((2 * Math.PI * 60 * i) / rate));
    const mix = mixOf(version({}), 'a', 1, 1);
    const { left } = await renderPath(page, inject('pageUrl'), {
      sampleRate: rate,
      frames: 2 * rate,
      a: loop,
      b: loop,
      asks: [
        { frame: 0, asks: [choose(mix), { type: 'play', on: true }] },
        { frame: 12_800, asks: [{ type: 'level', level: 0.5 }] },
        { frame: 51_200, asks: [{ type: 'play', on: false }] },
        { frame: 64_000, asks: [{ type: 'play', on: true }] },
      ],
    });
    const peak = (from: number, to: number): number => Math.max(...left.subarray(from, to).map(Math.abs));
    expect(peak(0, 12_800)).toBe(0);
    expect(peak(12_800, 12_800 + 480)).toBeLessThanOrEqual(0.0401);
    expect(peak(20_000, 51_200)).toBeCloseTo(0.2, 3);
    expect(peak(51_200 + 600, 64_000)).toBe(0);
    // 0.2·2π·60/48000 is the sine's own largest step
    expect(largestStep(left, 0, 2 * rate)).toBeLessThan((0.2 * 2 * Math.PI * 60) / rate + MINUS_60);
  });
});

test('live sound passes untouched below the ceiling of −1 dBFS, never above it, and a howl is muted and told', async () => {
  await withPage({}, async ({ page }) => {
    const rate = 48_000;
    const through = async (sound: (t: number) => number, seconds: number) => {
      const a = Float32Array.from({ length: seconds * rate }, (_, i) => sound(i / rate));
      const asks = [{ frame: 0, asks: [choose(mixOf(version({}), 'a', 1, 1)), ...BEGIN] }];
      const wish = { sampleRate: rate, frames: a.length, a, b: new Float32Array(a.length), isLive: true, asks };
      return { a, ...(await renderPath(page, inject('pageUrl'), wish)) };
    };
    const hits = (peak: number) => (t: number) =>
      peak * Math.exp(-18 * (t % 0.5)) * Math.sin(2 * Math.PI * 90 * (t % 0.5));
    const soft = await through(hits(0.5), 2);
    expect(soft.told).toEqual([]);
    // 31 samples late, at any setting
    for (let i = rate; i < 1.5 * rate; i++) expect(soft.left[i]).toBeCloseTo(soft.a[i - 31] as number, 6);

    const loud = await through(hits(8), 2);
    const ceiling = 10 ** (-1 / 20);
    expect(Math.max(...loud.left.map(Math.abs))).toBeLessThanOrEqual(ceiling + 1e-6);
    expect(Math.max(...loud.left.map(Math.abs))).toBeGreaterThan(0.9 * ceiling);

    const howl = await through((t) => Math.min(1, 0.003 * 10 ** (4 * t)) * Math.sin(2 * Math.PI * 700 * t), 2);
    expect(howl.told).toEqual(['runaway']);
    expect(Math.max(...howl.left.subarray(0.6 * rate).map(Math.abs))).toBe(0);
  });
});
