/** `npm run -s measure -- --take FOLDER`: a whole kit's take without a browser. */
import type { ReadPair } from '../take/pairs/readWhole';
import { readTake } from '../take/readTake';
import { TakeError } from '../take/report/tracks';
import { toldTracks } from '../take/told/told';
import { temperatureOf, USAGE, UsageError } from './options';
import type { CommandOutcome } from './run';
import { openFolder } from './takeFolder';
import { offsetsCsv } from './takeOffsets';
import { takeReport } from './takeReport';

interface TakeArguments {
  folder: string;
  temperatureC: number;
  json: boolean;
  csv: boolean;
}

/** Never rejects. @param tell how far it has come, for people; called now and then */
export async function runTake(args: readonly string[], tell: (text: string) => void): Promise<CommandOutcome> {
  try {
    const options = takeArguments(args);
    if (!options) return { stdout: `${USAGE}\n`, stderr: '', status: 0 };
    const { folder, temperatureC, json, csv } = options;
    const take = await openFolder(folder);
    try {
      const { tracks, whole } = toldTracks(take.tracks, new Map());
      const pairs: ReadPair[] = [];
      const report = whole(
        await readTake(tracks, {
          temperatureC,
          onDrum: (_, read) => void (csv && pairs.push(...read)),
          onProgress: ({ share, doing }) => tell(`${Math.round(100 * share)} % · ${doing}`),
        }),
      );
      if (csv) return { stdout: offsetsCsv(report, pairs, temperatureC), stderr: '', status: 0 };
      const text = json ? JSON.stringify(report, null, 2) : takeReport(report);
      return { stdout: `${text}\n`, stderr: '', status: 0 };
    } finally {
      await take.close();
    }
  } catch (thrown) {
    const isTold = thrown instanceof UsageError || thrown instanceof TakeError;
    const text = isTold ? thrown.message : `the measurement failed (${String(thrown)}); nothing was changed.`;
    return { stdout: '', stderr: `measure: ${text}\n`, status: 2 };
  }
}

/** @returns null when only the usage was asked for @throws UsageError */
function takeArguments(args: readonly string[]): TakeArguments | null {
  const options: TakeArguments = { folder: '', temperatureC: 20, json: false, csv: false };
  for (let i = 0; i < args.length; i++) {
    const [name, ...rest] = (args[i] as string).split('=') as [string, ...string[]];
    const value = (): string => {
      const given = rest.length > 0 ? rest.join('=') : args[++i];
      if (given === undefined || given === '') throw new UsageError(`${name} needs a value after it.`);
      return given;
    };
    if (name === '--take') options.folder = value();
    else if (name === '--temperature') options.temperatureC = temperatureOf(value());
    else if (name === '--json' && rest.length === 0) options.json = true;
    else if (name === '--csv' && rest.length === 0) options.csv = true;
    else if (name === '--help') return null;
    else
      throw new UsageError(
        `--take reads a whole folder; beside it there are only --temperature, --json and --csv, not ${args[i]}.`,
      );
  }
  if (options.json && options.csv) throw new UsageError('--json and --csv can’t be had at once; leave one out.');
  return options;
}
