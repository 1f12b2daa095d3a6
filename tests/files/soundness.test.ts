/** What of a recording is no sound, and what is said of it: one text for the page and for the measuring command. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { problemOf } from '../../src/audio/link';
import { loadRecording } from '../../src/audio/recording/loadRecording';
import type { CommandResult } from '../../src/cli/result';
import { runMeasure } from '../../src/cli/run';
import { type Gap, GapFinder, gapsText } from '../../src/files/soundness';
import { struckPair } from '../support/sound/struckPair';
import { floatWav } from './wavBytes';

const RATE = 48000;
const folder = mkdtempSync(join(tmpdir(), 'soundness-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const drum = (hits = 6) => struckPair({ sampleRate: RATE, hits, delaySamples: 12, polarity: 'inverted' });
const at = (seconds: number): number => Math.round(seconds * RATE);

interface Both {
  /** what the page says of it: its label, or its problem */
  page: string;
  command: string;
  result: CommandResult | null;
}

/** The same channels as a file for the page and for the command; the file's name taken out of what they say. */
async function both(channels: Float32Array[], sampleRate = RATE): Promise<Both> {
  const bytes = floatWav(channels, sampleRate);
  const path = join(folder, 'take.wav');
  writeFileSync(path, bytes);
  const file = { name: 'take.wav', size: bytes.length, arrayBuffer: async () => bytes.slice().buffer };
  const page = await loadRecording([file]).then(
    ({ label }) => label,
    (thrown: unknown) => problemOf(thrown).text,
  );
  const { stdout, stderr } = runMeasure([path, '--json']);
  return {
    page,
    command: stderr.replace(`measure: ${path}`, 'take.wav').trim(),
    result: stdout === '' ? null : (JSON.parse(stdout) as CommandResult),
  };
}

describe('rates that can’t be measured', () => {
  test.each([1, 4000, 7999, 384_001, 768_000, 4_000_000])('%d Hz: one sentence, the same twice', async (rate) => {
    const said = await both([new Float32Array(100), new Float32Array(100)], rate);
    const text = `take.wav: its rate is ${rate} Hz, and 8000 to 384000 Hz can be measured; export it at 48000 Hz.`;
    expect(said).toEqual({ page: text, command: text, result: null });
  });

  test.each([8000, 384_000])('%d Hz can', async (rate) => {
    const said = await both([new Float32Array(100), new Float32Array(100)], rate);
    expect([said.page, said.command]).toEqual(['take.wav', '']);
  });
});

describe('a file that is no sound', () => {
  test.each([Number.NaN, Number.POSITIVE_INFINITY, -1e30])('%d throughout', async (value) => {
    const text =
      'take.wav: it holds values that are no sound (no numbers, or far beyond full scale); export it again as 24-bit WAV.';
    const nothing = new Float32Array(RATE).fill(value);
    expect(await both([nothing, nothing])).toEqual({ page: text, command: text, result: null });
  });

  test('one channel of it: named', async () => {
    const { a, b } = drum();
    const text =
      'take.wav: its channel A holds values that are no sound (no numbers, or far beyond full scale); export it again as 24-bit WAV.';
    expect(await both([a.fill(Number.NaN), b])).toEqual({ page: text, command: text, result: null });
  });

  test('samples that were never scaled down', async () => {
    const { a, b } = drum();
    const text =
      'take.wav: its samples are far beyond full scale, so they were never scaled to ±1; export it again as 24-bit WAV.';
    const said = await both([a.map((x) => 32767 * x), b.map((x) => 32767 * x)]);
    expect(said).toEqual({ page: text, command: text, result: null });
  });
});

describe('a burst of it in a drum', () => {
  test.each([Number.NaN, Number.NEGATIVE_INFINITY, 1e30])(
    '%d: where and how long, the rest is measured',
    async (value) => {
      const { a, b } = drum();
      b.fill(value, at(1.75), at(1.77));
      const { page, result } = await both([a, b]);
      expect(page).toBe('take.wav (no sound in it from 1.75 s on for 20 ms: left out, the rest measured)');
      expect(result).toMatchObject({
        state: 'measured',
        polarity: 'inverted',
        gaps: [{ fromSeconds: 1.75, seconds: 0.02 }],
      });
      expect(result?.delaySamples).toBeCloseTo(12, 0);
      const { stdout } = runMeasure([join(folder, 'take.wav')]);
      expect(stdout).toContain('gap         No sound in it from 1.75 s on for 20 ms: left out, the rest measured.');
    },
  );

  test('three: their number, and the longest', async () => {
    const { a, b } = drum(10);
    for (const [from, to] of [
      [0.1, 0.101],
      [1.7, 1.8],
      [2.8, 2.81],
    ] as const)
      a.fill(Number.NaN, at(from), at(to));
    const { page, result } = await both([a, b]);
    expect(page).toContain('no sound in it at 3 places, the longest from 1.70 s on for 100 ms');
    expect(result?.gaps).toHaveLength(3);
    expect(result?.polarity).toBe('inverted');
  });

  test('half of the file: the other half is measured', async () => {
    const { a, b } = struckPair({ sampleRate: RATE, hits: 12, delaySamples: 12, polarity: 'inverted' });
    a.fill(Number.NaN, a.length / 2);
    const { result } = await both([a, b]);
    expect(result).toMatchObject({ state: 'measured', polarity: 'inverted' });
  });

  test('a filter that runs away, over 1000 and then no number, is a burst', async () => {
    const { a, b } = drum();
    for (let i = 0; i < 480; i++) a[at(1.75) + i] = 2 ** (i / 2);
    const { page, result } = await both([a, b]);
    expect(page).toMatch(/no sound in it from 1\.75 s on for \d+ ms/);
    expect(result).toMatchObject({ state: 'measured', polarity: 'inverted' });
  });

  test('a file without one is said nothing of', async () => {
    const { a, b } = drum();
    const { page, result } = await both([a, b]);
    expect([page, result?.gaps]).toEqual(['take.wav', []]);
  });
});

test('gaps are those frames and no others, however the frames come', () => {
  const sample = fc.constantFrom(0, 0.5, -1, 999, Number.NaN, Number.POSITIVE_INFINITY, -1000);
  fc.assert(
    fc.property(
      fc.array(fc.tuple(sample, sample), { maxLength: 60 }),
      fc.integer({ min: 1, max: 20 }),
      (frames, block) => {
        // at 50 Hz what is told together lies within a frame
        const finder = new GapFinder(50);
        const [a, b] = [0, 1].map((c) => Float32Array.from(frames, (frame) => frame[c] as number)) as [
          Float32Array,
          Float32Array,
        ];
        for (let i = 0; i < frames.length; i += block)
          finder.note(a.subarray(i), b.subarray(i), Math.min(block, frames.length - i));
        const isGap = (i: number): boolean => !frames[i]?.every((x) => Math.abs(x) < 1000);
        const inGap = (i: number): boolean =>
          finder.gaps.some(({ fromFrame, frames: n }: Gap) => i >= fromFrame && i < fromFrame + n);
        for (let i = 0; i < frames.length; i++) if (isGap(i)) expect(inGap(i)).toBe(true);
        for (let i = 0; i < frames.length; i++)
          if (!isGap(i) && inGap(i)) expect(isGap(i - 1) && isGap(i + 1)).toBe(true);
      },
    ),
  );
});

test('of seconds, and of less than a millisecond', () => {
  expect(gapsText([{ fromFrame: 48, frames: 96000 }], RATE)).toContain('from 0.00 s on for 2.0 s');
  expect(gapsText([{ fromFrame: 4800, frames: 1 }], RATE)).toContain('from 0.10 s on for 1 ms');
  expect(gapsText([], RATE)).toBe('');
});
