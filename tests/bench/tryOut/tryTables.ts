/** How near what is told of a try comes to what it really does: the simulated kit, and the real recordings. */
import { fileURLToPath } from 'node:url';
import type { Tried } from '../../../src/advice/tryOut/tried';
import { QUOTED_SEEDS } from '../../cases/case';
import { openPair, recordedPairs } from '../../support/sound/recordedPairs';
import { runJobs } from '../cases/runJobs';
import type { BenchOptions } from '../options';
import { table } from '../table';
import type { TryJob, TryResult } from './tryJob';
import { hear, type TriedBand, tryInRecording } from './tryTrial';

const CASES = 500;
const WORKER = fileURLToPath(new URL('./tryWorker.ts', import.meta.url));
/** where a level must be right: |γ|² over the hits, and the true level, dB re the power sum */
const WELL = 0.5;
const THIN_DB = -10;
const NAMES: readonly TriedBand['band'][] = ['low end', 'overall', 'low', 'body', 'mid', 'attack'];
const REAL_MOVES_CM = [-60, -31.7, -12.4, -3.3, -0.7, 0, 1.9, 5.6, 14.2, 38.8, 60];

export async function tryTables(range: BenchOptions['range']): Promise<string> {
  const from = range.from ?? QUOTED_SEEDS.from;
  const jobs = Array.from({ length: range.cases ?? CASES }, (_, i): TryJob => ({ seed: from + i }));
  const results = await runJobs<TryJob, TryResult>(WORKER, jobs);
  const pairs = results.filter(({ none }) => !none);
  const count = `seeds ${from}–${from + jobs.length - 1}: ${jobs.length} cases, ${pairs.length} with a pair to try, ${pairs.filter(({ answers }) => answers).length} with an answer`;
  return [
    tableOf(
      `Simulated kit, B delayed alone, inverted, trimmed (${count})`,
      pairs.flatMap(({ delayed }) => delayed),
    ),
    tableOf(
      'The same, B really moved and everything rendered again',
      pairs.flatMap(({ moved }) => moved),
    ),
    tableOf('Real recordings, B delayed alone and inverted', realTries()),
  ].join('\n');
}

function realTries(): TriedBand[] {
  return recordedPairs()
    .filter(({ demo }) => !demo)
    .flatMap((pair) => {
      const sound = openPair(pair);
      const heard = hear(sound, pair.kind, []);
      const tries = REAL_MOVES_CM.flatMap((moveCm) =>
        [false, true].map((invertB): Tried => ({ invertB, moveCm, delayMs: null, trimDb: 0 })),
      );
      return tryInRecording(sound, heard, tries);
    });
}

function tableOf(title: string, tried: readonly TriedBand[]): string {
  const rows = [...NAMES, null].map((name) =>
    rowOf(name ?? 'all of them', name ? tried.filter(({ band }) => band === name) : tried),
  );
  const head = [
    'band',
    'well carried',
    'told',
    'median dB',
    '95 % dB',
    'most dB',
    'thin',
    '95 % dB',
    'poorly carried, told',
    '95 % dB',
  ];
  return table(title, head, rows);
}

function rowOf(name: string, tried: readonly TriedBand[]): (string | number)[] {
  const well = tried.filter(({ coherence, trueDb }) => coherence >= WELL && trueDb > THIN_DB);
  const told = well.filter(({ toldDb, deep }) => toldDb !== null && !deep);
  const thin = tried.filter(
    ({ coherence, trueDb, toldDb }) => coherence >= WELL && trueDb <= THIN_DB && toldDb !== null,
  );
  const poor = tried.filter(({ coherence, trueDb, toldDb }) => coherence < WELL && trueDb > THIN_DB && toldDb !== null);
  const share = well.length === 0 ? '–' : `${((100 * told.length) / well.length).toFixed(0)} %`;
  return [
    name,
    well.length,
    share,
    ...[0.5, 0.95, 1].map((q) => missOf(told, q)),
    thin.length,
    missOf(thin, 0.95),
    poor.length,
    missOf(poor, 0.95),
  ];
}

/** Quantile of |told − true|, dB. */
function missOf(tried: readonly TriedBand[], q: number): string {
  const off = tried.map(({ toldDb, trueDb }) => Math.abs((toldDb as number) - trueDb)).sort((x, y) => x - y);
  return off.length === 0 ? '–' : (off[Math.ceil(q * off.length) - 1] as number).toFixed(2);
}
