/** Planted faults: named, missed, and what has none and is accused. */
import type { Planted } from '../../support/take/plantFaults';
import { table } from '../table';
import type { JudgedFaults } from './judgeFaults';
import type { TakeResult } from './takeJob';

export function faultTables(results: readonly TakeResult[]): string[] {
  const kinds = [...new Set(results.flatMap(({ planted }) => planted.map(({ kind }) => kind)))];
  const rows = kinds.map((kind) => {
    const planted = results.flatMap((one) => one.planted.filter((fault) => fault.kind === kind)).length;
    const named = results.reduce((sum, { spoilt }) => sum + (spoilt.faults.named[kind] ?? 0), 0);
    return [kind, planted, named, planted - named];
  });
  const late = results.flatMap(({ spoilt }) => spoilt.faults.lateOffSamples.map(Math.abs)).sort((p, q) => p - q);
  const most = late.length > 0 ? `; a late one is told within ${late[late.length - 1].toFixed(1)} samples` : '';
  return [
    table(
      `Faults planted in ${results.length} takes, five in each${most}`,
      ['fault', 'planted', 'named', 'missed'],
      rows,
    ),
    accusedTable(results),
    lines('Missed', results, ({ missed }) => missed.map(({ kind, files }) => `${kind}: ${files.join(', ')}`)),
    lines('Accused with faults planted elsewhere', results, accusations),
    lines('Accused with nothing planted', results, accusations, 'clean'),
  ];
}

const accusations = ({ accused }: JudgedFaults): string[] =>
  accused.map(({ kind, files, text }) => `${kind}: ${files.join(', ')} (${text})`);

function accusedTable(results: readonly TakeResult[]): string {
  const rows = (['clean', 'spoilt'] as const).map((part) => {
    const all = results.map((one) => one[part].faults.accused);
    const sound = results.flatMap((one) => {
      const spoilt = new Set(part === 'spoilt' ? one.planted.flatMap(tracksOf) : []);
      return [...new Set(one[part].faults.accused.flatMap(({ files }) => files))].filter((file) => !spoilt.has(file));
    });
    const takes = all.filter((list) => list.length > 0).length;
    return [part === 'clean' ? 'nothing' : 'five faults', results.length, takes, all.flat().length, sound.length];
  });
  const head = ['planted', 'takes', 'takes with one accused falsely', 'false accusations', 'sound tracks accused'];
  return table('Accused of what they don’t have', head, rows);
}

const tracksOf = (one: Planted): string[] => (one.kind === 'swapped' ? [...one.files] : [one.file]);

function lines(
  title: string,
  results: readonly TakeResult[],
  of: (faults: JudgedFaults) => string[],
  part: 'clean' | 'spoilt' = 'spoilt',
): string {
  const all = results.flatMap((one) => of(one[part].faults).map((line) => `${one.seed}: ${line}`));
  return `\n${title}: ${all.length === 0 ? 'none' : `${all.length}\n  ${all.join('\n  ')}`}`;
}
