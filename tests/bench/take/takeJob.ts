/** One simulated take read as it is, and with faults planted: the unit of work that goes to a worker. */
import { readTake } from '../../../src/take/readTake';
import { Draw } from '../../cases/draw';
import { type Planted, plantFaults, type TakeSound } from '../../support/take/plantFaults';
import { renderTake } from '../../support/take/renderTake';
import { drawTake } from '../../support/take/simulatedKit';
import { pairTruth, type TakeTruth, truthOfTake } from '../../support/take/simulatedTruth';
import { takeTracks } from '../../support/take/takeTracks';
import { type JudgedFaults, judgeFaults } from './judgeFaults';
import { type JudgedTake, judgeTake, type KnownTake } from './judgeTake';

export interface TakeJob {
  seed: number;
  groove: boolean;
}

export interface TakeResult {
  seed: number;
  groove: boolean;
  /** nothing planted */
  clean: JudgedTake & { faults: JudgedFaults };
  planted: Planted[];
  spoilt: JudgedTake & { faults: JudgedFaults };
  /** s of work: making the sound, and reading it once */
  renderSeconds: number;
  readSeconds: number;
  takeSeconds: number;
}

/** 5 cm at 48 kHz */
const TOLERANCE_SAMPLES = 7;
const LATE_MS = 1.2;

export async function runTakeJob({ seed, groove }: TakeJob): Promise<TakeResult> {
  const t0 = performance.now();
  const made = drawTake(seed, { groove });
  const sound = { tracks: renderTake(made), truth: truthOfTake(made) };
  const t1 = performance.now();
  const clean = await read(sound, made.sampleRate, []);
  const t2 = performance.now();
  const planted = drawFaults(seed, sound.truth.files);
  const spoilt = await read(plantFaults(made, sound, planted), made.sampleRate, planted);
  const takeSeconds = made.seconds;
  return {
    seed,
    groove,
    clean,
    planted,
    spoilt,
    renderSeconds: (t1 - t0) / 1000,
    readSeconds: (t2 - t1) / 1000,
    takeSeconds,
  };
}

async function read(
  { tracks, truth }: TakeSound,
  sampleRate: number,
  planted: readonly Planted[],
): Promise<TakeResult['clean']> {
  const report = await readTake(takeTracks(truth.files, tracks, sampleRate));
  return { ...judgeTake(report, knownOf(truth)), faults: judgeFaults(report.faults, planted, sampleRate) };
}

export function knownOf(truth: TakeTruth): KnownTake {
  return {
    hits: truth.hits,
    pair(name, a, b) {
      const drum = truth.drums.find((one) => one.drum === name);
      const [p, q] = [a, b].map((file) => truth.files.indexOf(file));
      if (!drum || p < 0 || q < 0) return 'unknown';
      const pair = pairTruth(drum, p, q);
      if (truth.lowEndOnly[p] || truth.lowEndOnly[q] || Number.isNaN(pair.delaySamples)) return 'no answer';
      return { ...pair, toleranceSamples: TOLERANCE_SAMPLES };
    },
  };
}

/** close ones: two of them, of different drums, have changed names */
const CLOSE = /Kick|Snare|Tom|Hi-Hat|Ride/;

/**
 * Two inverted, an overhead late, one dead, two names swapped: seven tracks, each with one fault. An overhead alone isn't late but hangs
 * higher, for all that anybody can tell: the dead one is none.
 */
export function drawFaults(seed: number, files: readonly string[]): Planted[] {
  const draw = new Draw(seed, 'take faults');
  const left = new Set(files.filter((file) => !file.includes('Driver')));
  const takeOne = (among: (file: string) => boolean): string => {
    const file = draw.one([...left].filter(among));
    left.delete(file);
    return file;
  };
  const late = takeOne((file) => file.includes('Overhead'));
  const drumOf = (file: string): string => (/Kick|Snare/.exec(file) ?? [file])[0];
  const one = takeOne((file) => CLOSE.test(file));
  const swapped = [one, takeOne((file) => CLOSE.test(file) && drumOf(file) !== drumOf(one))] as const;
  const any = (): boolean => true;
  return [
    { kind: 'inverted', file: takeOne(any) },
    { kind: 'inverted', file: takeOne(any) },
    { kind: 'late', file: late, ms: LATE_MS },
    { kind: 'dead', file: takeOne((file) => !file.includes('Overhead')), noise: draw.chance(0.6) },
    { kind: 'swapped', files: swapped },
  ];
}
