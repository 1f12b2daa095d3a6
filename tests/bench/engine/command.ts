/** The measuring command on ten minutes of stereo, start-up included. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { writeWav } from '../../../src/files/writeWav';
import { pairOfHits } from '../../support/sound/simpleKit';
import { table } from '../table';

const SECONDS = 600;
const RUNS = 3;

export function commandTable(): string {
  const folder = mkdtempSync(join(tmpdir(), 'crosshead-'));
  try {
    const file = join(folder, 'ten-minutes.wav');
    const short = pairOfHits({ hits: 50, noise: 1e-4 });
    const long = (x: Float32Array): Float32Array =>
      Float32Array.from({ length: SECONDS * 48000 }, (_, i) => x[i % x.length] as number);
    writeFileSync(file, writeWav([long(short.a), long(short.b)], 48000, 's24'));
    const rows = Array.from({ length: RUNS }, (_, run) => {
      const start = performance.now();
      const child = spawnSync('npm', ['run', '-s', 'measure', '--', file, '--json'], { encoding: 'utf8' });
      const seconds = (performance.now() - start) / 1000;
      const result = JSON.parse(child.stdout) as { state: string; hits: number };
      return [run + 1, seconds.toFixed(2), (SECONDS / seconds).toFixed(0), result.state, result.hits];
    });
    return table(
      'Measuring command, 10 min stereo, 48 kHz, 24 bit',
      ['run', 'seconds', '× real time', 'state', 'hits'],
      rows,
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
}
