/** The measuring command's arguments. */
import { PAIR_KIND_IDS, type PairKindId } from '../advice/plan/pairKinds';
import { DRUM_NAME_LETTERS, givenDrumName } from '../text/names';

/** What is wrong with arguments or files: one sentence, and the command ends with 2. */
export class UsageError extends Error {}

export interface CommandOptions {
  file: string;
  /** B comes from another file */
  bFile: string | null;
  /** channels, from 1; null: not told */
  a: number | null;
  b: number | null;
  kind: PairKindId;
  temperatureC: number;
  hits: number | undefined;
  /** taken out first: delay of B's path against A's, samples */
  offsetSamples: number;
  /** of the drum that the reading is about; null: not told */
  drumName: string | null;
  json: boolean;
}

export const USAGE = `npm run -s measure -- FILE.wav [options]
  --a N            channel of mic A, from 1 (default 1)
  --b N            channel of mic B (default 2; 1 with --b-file)
  --b-file FILE2   B from a second file of the same rate and length
  --kind KIND      what the two mics are (default other):
                   ${PAIR_KIND_IDS.join(' · ')}
  --temperature C  air temperature, °C (default 20)
  --offset SAMPLES delay of B’s converter against A’s, corrected first (default 0)
  --drum-name NAME what the drum that is measured is called
  --hits N         stop after N used hits
  --json           one JSON object and nothing else

npm run -s measure -- --take FOLDER [--temperature C] [--json | --csv]
                   every audio file of the folder as a track of one take: which drum was hit, every pair, what is wrong;
                   --csv: offsets and inverts of the tracks as a table`;

/** a drummer plays somewhere in here; the speed of sound holds far beyond */
const COLDEST_C = -40;
const HOTTEST_C = 60;

/**
 * @returns null when only the usage was asked for
 * @throws UsageError
 */
export function parseOptions(args: readonly string[]): CommandOptions | null {
  const options: CommandOptions = {
    file: '',
    bFile: null,
    a: null,
    b: null,
    kind: 'other',
    temperatureC: 20,
    hits: undefined,
    offsetSamples: 0,
    drumName: null,
    json: false,
  };
  const files: string[] = [];
  let onlyFiles = false;
  for (let i = 0; i < args.length; i++) {
    const arg = args[i] as string;
    if (onlyFiles || !arg.startsWith('--')) {
      if (!onlyFiles && arg.startsWith('-') && arg.length > 1) throw unknown(arg);
      files.push(arg);
      continue;
    }
    const equals = arg.indexOf('=');
    const name = equals < 0 ? arg : arg.slice(0, equals);
    const value = (): string => {
      const given = equals < 0 ? args[++i] : arg.slice(equals + 1);
      if (given === undefined || given === '') throw new UsageError(`${name} needs a value after it.`);
      return given;
    };
    switch (name) {
      case '--':
        onlyFiles = true;
        break;
      case '--help':
        return null;
      case '--json':
        if (equals >= 0) throw new UsageError('--json takes no value.');
        options.json = true;
        break;
      case '--a':
        options.a = counted(name, value());
        break;
      case '--b':
        options.b = counted(name, value());
        break;
      case '--b-file':
        options.bFile = value();
        break;
      case '--kind':
        options.kind = kindOf(value());
        break;
      case '--temperature':
        options.temperatureC = temperatureOf(value());
        break;
      case '--offset':
        options.offsetSamples = offsetOf(value());
        break;
      case '--drum-name':
        options.drumName = drumNameOf(value());
        break;
      case '--hits':
        options.hits = counted(name, value());
        break;
      default:
        throw unknown(name);
    }
  }
  const [file] = files;
  if (!file) throw new UsageError('no file given; name a WAV recording of the two mics (--help lists the options).');
  if (files.length > 1) {
    throw new UsageError(
      `one file at a time, but ${files.length} were named; if B has a file of its own, name it with --b-file.`,
    );
  }
  return { ...options, file };
}

function counted(name: string, text: string): number {
  const value = /^\d{1,9}$/.test(text) ? Number(text) : 0;
  if (value < 1) throw new UsageError(`${name} needs a whole number from 1 up, not “${text}”.`);
  return value;
}

export function temperatureOf(text: string): number {
  const value = numberIn(text);
  if (!(value >= COLDEST_C && value <= HOTTEST_C)) {
    throw new UsageError(`--temperature needs degrees Celsius from ${COLDEST_C} to ${HOTTEST_C}, not “${text}”.`);
  }
  return value;
}

function drumNameOf(text: string): string {
  const name = givenDrumName(text);
  if (name === null || text.trim().length > DRUM_NAME_LETTERS) {
    throw new UsageError(`--drum-name needs a name of 1 to ${DRUM_NAME_LETTERS} letters, not “${text}”.`);
  }
  return name;
}

/** How far it may go depends on the rate, which the file tells. */
function offsetOf(text: string): number {
  const value = numberIn(text);
  if (Number.isNaN(value)) {
    throw new UsageError(`--offset needs a number of samples (positive: B’s converter is later), not “${text}”.`);
  }
  return value;
}

function numberIn(text: string): number {
  return /^[+-]?\d*\.?\d+$/.test(text) ? Number(text) : Number.NaN;
}

function kindOf(text: string): PairKindId {
  const kind = PAIR_KIND_IDS.find((id) => id === text);
  if (!kind) throw new UsageError(`--kind can’t be “${text}”; it is one of ${PAIR_KIND_IDS.join(', ')}.`);
  return kind;
}

const unknown = (name: string): UsageError => new UsageError(`there is no option ${name}; --help lists the options.`);
