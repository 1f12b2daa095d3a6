/** A take of FLAC files on the page: decoded in the workers, and read to the bit as the same take in WAV; four channels of one file too. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { writeWav } from '../../../src/files/writeWav';
import type { TakeReport } from '../../../src/take/model';
import { KEEP_REPORT } from '../../bench/take/takeBrowser';
import { withPage } from '../../support/page/withPage';
import { struckPair } from '../../support/sound/struckPair';

const RATE = 48_000;
const folder = mkdtempSync(join(tmpdir(), 'take-flac-'));
afterAll(() => rmSync(folder, { recursive: true }));
const hasFlac = spawnSync('flac', ['--version']).status === 0;

async function reportOf(paths: string[]): Promise<TakeReport> {
  let report: TakeReport | undefined;
  await withPage({ initScript: KEEP_REPORT }, async ({ page }) => {
    await page.locator('[data-command="open-take"]').click();
    await page.locator('#take-files').setInputFiles(paths);
    await page.locator('[data-take="read"]').waitFor({ timeout: 100_000 });
    report = await page.evaluate<TakeReport>('globalThis.keptReport');
  });
  return report as TakeReport;
}

/** The same but for what the files are called. */
const unnamed = (report: TakeReport): string => JSON.stringify(report).replace(/\.(wav|flac)/g, '');

test('FLAC files read as the WAV files that they were made from', { timeout: 240_000 }, async ({ skip }) => {
  if (!hasFlac) skip('the flac program isn’t here');
  const { a, b } = struckPair({ sampleRate: RATE, hits: 10, delaySamples: 60, polarity: 'inverted' });
  const room = b.map((_, i) => 0.5 * (a[Math.max(0, i - 300)] as number) + 0.1 * (b[i] as number));
  const wavs = [
    ['01 Snare.wav', [a]],
    ['02 OH.wav', [b]],
    ['03 Rooms.wav', [room, b.map((x) => -0.7 * x)]],
  ].map(([name, channels]) => {
    const path = join(folder, name as string);
    writeFileSync(path, writeWav(channels as Float32Array[], RATE, 's24'));
    return path;
  });
  expect(spawnSync('flac', ['-s', '-8', ...wavs]).status).toBe(0);
  const fromWav = await reportOf(wavs);
  const fromFlac = await reportOf(wavs.map((path) => path.replace('.wav', '.flac')));
  expect(fromWav.tracks.map(({ state }) => state)).toEqual(['ok', 'ok', 'ok', 'ok']);
  expect(fromWav.hits).toHaveLength(10);
  expect(unnamed(fromFlac)).toBe(unnamed(fromWav));
});
