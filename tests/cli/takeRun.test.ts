/** The measuring command reads a folder of tracks. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runTake } from '../../src/cli/takeRun';
import { writeWav } from '../../src/files/writeWav';
import type { TakeReport } from '../../src/take/model';
import { parse } from '../support/readings/csvRows';
import { CAPTURE_RATE } from '../support/sound/signals';
import { struckPair } from '../support/sound/struckPair';

let folder = '';
let empty = '';
const quiet = (): void => undefined;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'take-'));
  empty = mkdtempSync(join(tmpdir(), 'none-'));
  const { a, b } = struckPair({ sampleRate: CAPTURE_RATE, hits: 8, delaySamples: 40, polarity: 'inverted' });
  writeFileSync(join(folder, '01 Snare.wav'), writeWav([a], CAPTURE_RATE, 's24'));
  writeFileSync(join(folder, '02 OH.wav'), writeWav([b], CAPTURE_RATE, 's24'));
  writeFileSync(join(folder, '03 Room.wav'), 'these are notes');
  writeFileSync(join(folder, 'notes.txt'), 'not a track');
});
afterAll(() => {
  for (const path of [folder, empty]) rmSync(path, { recursive: true, force: true });
});

describe('a folder', () => {
  test('every track is read, and what can’t be is said', async () => {
    const { stdout, stderr, status } = await runTake(['--take', folder, '--json'], quiet);
    expect([stderr, status]).toEqual(['', 0]);
    const report = JSON.parse(stdout) as TakeReport;
    expect(report.tracks.map(({ file, state }) => [file, state])).toEqual([
      ['01 Snare.wav', 'ok'],
      ['02 OH.wav', 'ok'],
      ['03 Room.wav', 'unreadable'],
    ]);
    expect(report.hits).toHaveLength(8);
    const [snare] = report.drums;
    expect(snare).toMatchObject({ drum: 'snare', ownTrack: '01 Snare.wav', hits: 8, hitsUsable: 8 });
    const [pair] = snare?.pairs ?? [];
    expect(pair).toMatchObject({ a: '01 Snare.wav', b: '02 OH.wav', state: 'measured', polarity: 'inverted' });
    expect(Math.abs((pair?.delaySamples ?? 0) - 40)).toBeLessThan(1);
    expect(stdout).not.toMatch(/NaN|Infinity/);
  });

  test('the short report says the same', async () => {
    const { stdout } = await runTake(['--take', folder], quiet);
    expect(stdout).toContain('03 Room.wav: ');
    expect(stdout).toMatch(/01 Snare\.wav – 02 OH\.wav +inverted · \+40\.\d samples/);
  });
});

test('offsets and inverts as a table: a row a track, and nothing else', async () => {
  const { stdout, stderr, status } = await runTake(['--take', folder, '--csv'], quiet);
  expect([stderr, status]).toEqual(['', 0]);
  const [head, ...rows] = parse(stdout);
  const of = (file: string) =>
    Object.fromEntries((rows.find(([name]) => name === file) ?? []).map((value, i) => [head?.[i], value]));
  expect(rows.map(([file]) => file?.replace('\uFEFF', ''))).toEqual(['01 Snare.wav', '02 OH.wav', '03 Room.wav']);
  // 40 samples, by the plan of that pair
  expect(of('02 OH.wav')).toMatchObject({ mic: 'Overhead', 'from drums': 'snare' });
  expect(Number(of('02 OH.wav')['snare: arrives after Snare ms'])).toBeCloseTo(40_000 / CAPTURE_RATE, 2);
  expect([of('01 Snare.wav').invert, of('02 OH.wav').invert].sort()).toEqual(['no', 'yes']);
  expect(of('03 Room.wav')['to mind']).not.toBe('');
});

test.for([
  ['no such folder', ['--take', '/no/such/folder'], /is not there; check its name and folder/],
  ['a folder without audio', () => ['--take', empty], /there is no audio file in/],
  ['no folder named', ['--take'], /--take needs a value after it/],
  ['two ways to say it', ['--take', '/tmp', '--json', '--csv'], /can’t be had at once/],
  ['an option of pairs', ['--take', '/tmp', '--kind', 'other'], /there are only --temperature, --json and --csv/],
] as const)('%s: one sentence, and status 2', async ([, args, sentence]) => {
  const { stdout, stderr, status } = await runTake(typeof args === 'function' ? args() : args, quiet);
  expect([stdout, status]).toEqual(['', 2]);
  expect(stderr).toMatch(sentence);
  expect(stderr.trim().split('\n')).toHaveLength(1);
});
