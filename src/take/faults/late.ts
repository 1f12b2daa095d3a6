/** Tracks that hear too late: one overhead of a pair for every drum, also for those on its own side; a close microphone its own drum. */
import type { MicGuess } from '../../advice/names/guessPair';
import type { DrumReport, Fault } from '../model';

/** later by so much for every drum, s: 10 cm */
const LEAST_SECONDS = 0.0003;
const LEAST_DRUMS = 3;
/** or by so much halfway between the drums on either side, s: 34 cm. Of 300 drawn kits with sound overheads none came beyond 0.8 ms */
const HALFWAY_SECONDS = 0.001;

export interface TimedTracks {
  files: readonly string[];
  mics: readonly MicGuess[];
  sampleRate: number;
  /** cm that sound covers in a second */
  cmPerSecond: number;
}

export const lateTracks = (drums: readonly DrumReport[], tracks: TimedTracks): Fault[] =>
  lateOverheads(drums, tracks).map((one) => faultOf(one, tracks));

/** One that hears too late, and by what. Files; delays in samples. */
export interface Late {
  late: string;
  other: string;
  /** of b against a, for the drum that shows the least of it and the one that shows most */
  least: number;
  most: number;
  /** halfway between the two: above 0, b is the late one */
  halfway: number;
  /** for every drum, not only halfway between those on either side */
  forAll: boolean;
}

export function lateOverheads(drums: readonly DrumReport[], tracks: Omit<TimedTracks, 'cmPerSecond'>): Late[] {
  const { files, mics, sampleRate } = tracks;
  const overheads = files.filter((_, t) => mics[t]?.place === 'overhead');
  return overheads.flatMap((a, i) => overheads.slice(i + 1).flatMap((b) => lateOf(drums, a, b, sampleRate) ?? []));
}

/** Delay of b against a for each drum that shows it, samples. */
export function delaysBetween(drums: readonly DrumReport[], a: string, b: string): number[] {
  return drums.flatMap(({ pairs }) =>
    pairs.flatMap((pair) => {
      if (pair.state !== 'measured' || pair.delaySamples === null) return [];
      if (pair.a === a && pair.b === b) return [pair.delaySamples];
      return pair.a === b && pair.b === a ? [-pair.delaySamples] : [];
    }),
  );
}

function lateOf(drums: readonly DrumReport[], a: string, b: string, sampleRate: number): Late | null {
  const delays = delaysBetween(drums, a, b);
  const least = Math.min(...delays);
  const most = Math.max(...delays);
  const limit = LEAST_SECONDS * sampleRate;
  if (delays.length < LEAST_DRUMS) return null;
  const forAll = least >= limit || most <= -limit;
  const halfway = (least + most) / 2;
  if (!forAll && Math.abs(halfway) < HALFWAY_SECONDS * sampleRate) return null;
  const [late, other] = halfway > 0 ? [b, a] : [a, b];
  return { late, other, least, most, halfway, forAll };
}

/** In whole samples. */
export const lateBy = ({ halfway }: Late): number => Math.round(Math.abs(halfway));

function faultOf(one: Late, { sampleRate, cmPerSecond }: TimedTracks): Fault {
  const { late, other, least, most, halfway, forAll } = one;
  const samples = lateBy(one);
  const cm = (x: number): string => `${Math.round((Math.abs(x) / sampleRate) * cmPerSecond)} cm`;
  const [near, far] = least > 0 ? [least, most] : [most, least];
  const evidence = forAll
    ? `hears every drum later than ${other}, by ${cm(near)} to ${cm(far)}, also those on its own side`
    : `hears the drums later than ${other}: halfway between those on either side by ${cm(halfway)}`;
  return {
    kind: 'late',
    files: [late],
    samples,
    text: `${late} ${evidence}. Either it hangs so much further from the kit, or it is late by about ${samples} samples (${((1000 * samples) / sampleRate).toFixed(1)} ms): a converter, a plug-in, an edit. Measure the distance; if the stands are alike, it is the delay.`,
  };
}
