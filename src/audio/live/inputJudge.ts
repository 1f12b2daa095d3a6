/**
 * Is it the same input still? A system may hand a stream to another device without a word. What can't change by itself is the
 * noise between the hits: another device brings another noise, in both channels, from one moment to the next.
 *
 * Only what nothing else does counts: a preamp that is turned lifts all bands of one channel alike, two that are linked
 * lift both by as much, and a fan, a lamp or a talker is added to both or taken from both.
 */
import { INPUT_BAND_COUNT } from '../../reading/bands';
import type { InputNoise } from '../../reading/reading';

/** windows of 0.26 s before and after the moment in question, which is one window itself */
const BEFORE = 12;
const AFTER = 10;
const KEPT = BEFORE + 1 + AFTER;
/** windows in which the least is looked for: about a minute */
const LEAST_WINDOWS = 240;
/** shares of a stretch's windows, quietest first, between which noise stands still: hits and talk are in the others */
const QUIETER = 0.1;
const NOISE = 0.25;
const LOUDER = 0.4;
/** dB within which it does */
const STEADY_DB = 3;
/** bands of a channel that must stand still */
const STEADY_BANDS = 5;
/** dB over the least noise of the last minute that is noise still, and no music: chance alone makes 2 or 3 */
const NEAR_LEAST_DB = 5;
/** dB that a band, and a channel, must change by */
const BAND_DB = 5;
const CHANNEL_DB = 6;
/** dB within which all bands of a channel change alike */
const ALIKE_DB = 1;
/** dB by which the two channels must have changed apart: sound in the room is heard by both; at a break so much change is enough */
const APART_DB = 3;
/** windows on either side of the moment by which it must have changed, and the share of bands that must */
const SHARP_WINDOWS = 2;
const SHARP_SHARE = 0.8;
/** both exactly zero for so long is a break in the data, s */
const BREAK_SECONDS = 0.008;
/** windows before and after, in which less is enough: of a break, and of another device’s coming, which is seen late */
const AT_BREAK = 1;
const AT_COMING = 8;
/** windows after a moment by which a change may be suspected, and for how many it is: 10 s */
const SOON = 4;
const SUSPECTED = 40;
/** dBFS of a band, in place of digital silence */
const LOWEST_DB = -150;

const CHANNELS = 2;
const VALUES = CHANNELS * INPUT_BAND_COUNT;

interface Window {
  /** dB, inputs 1 and 2, band by band */
  floor: Float64Array;
  doubtful: boolean;
}

/** What one channel did. */
interface Step {
  /** dB, of the bands that stand still before and after */
  bands: number[];
  mean: number;
  /** standard deviation over the bands: 0 where all change alike */
  shape: number;
  rms: number;
}

export class InputJudge {
  private readonly windows: Window[] = [];
  /** dB, of the last minute's windows, newest last */
  private readonly least: Float64Array[] = [];
  private seen = -1;
  private doubtfulFor = 0;
  private suspectFor = 0;

  /** Another device has come to the system: whoever follows its default may be moved. */
  doubt(): void {
    this.mark(AT_COMING);
  }

  /**
   * The noise of both channels changed lately, from one moment to the next: a fan may have been switched on. Where the pair's
   * delay jumped as well, it is another input.
   */
  get isSuspect(): boolean {
    return this.suspectFor > 0;
  }

  private mark(windows: number): void {
    this.doubtfulFor = windows;
    for (const window of this.windows.slice(-windows)) window.doubtful = true;
  }

  /** Every reading. @param swapped A is input 2. @returns whether another input is heard since a moment ago; said once */
  push(noise: InputNoise, swapped: boolean): boolean {
    if (noise.windows === this.seen || noise.windows === 0) return false;
    this.seen = noise.windows;
    // nothing came: no noise of anything
    if (noise.zeroSeconds >= BREAK_SECONDS) {
      this.mark(AT_BREAK);
      return false;
    }
    const [one, two] = swapped ? [noise.floorB, noise.floorA] : [noise.floorA, noise.floorB];
    const floor = Float64Array.from([...one, ...two], (power) =>
      power > 0 ? Math.max(LOWEST_DB, 10 * Math.log10(power)) : LOWEST_DB,
    );
    this.windows.push({ floor, doubtful: this.doubtfulFor > 0 });
    this.doubtfulFor = Math.max(0, this.doubtfulFor - 1);
    this.least.push(floor);
    if (this.least.length > LEAST_WINDOWS) this.least.shift();
    if (this.windows.length > KEPT) this.windows.shift();
    this.suspectFor = this.mayHaveChanged() ? SUSPECTED : Math.max(0, this.suspectFor - 1);
    if (this.windows.length < KEPT || !this.isChanged()) return false;
    this.windows.length = 0;
    this.least.length = 0;
    return true;
  }

  private mayHaveChanged(): boolean {
    const newest = this.windows.slice(-(BEFORE + 1 + SOON));
    if (newest.length < BEFORE + 1 + SOON) return false;
    return [0, 1].every((channel) => {
      let still = 0;
      const bands: number[] = [];
      for (let k = 0; k < INPUT_BAND_COUNT; k++) {
        const at = channel * INPUT_BAND_COUNT + k;
        const before = sorted(newest.slice(0, BEFORE), at);
        if (range(before) <= STEADY_DB) still++;
        bands.push(noiseOf(sorted(newest.slice(BEFORE + 1), at)) - noiseOf(before));
      }
      return still >= STEADY_BANDS && rms(bands) >= BAND_DB;
    });
  }

  private isChanged(): boolean {
    const one = this.step(0);
    const two = one && this.step(1);
    if (!one || !two) return false;
    const apart = rms(one.bands.map((d, k) => d - (two.bands[k] as number)));
    const least = Math.min(one.rms, two.rms);
    if (apart < APART_DB) return false;
    const isDoubtful = this.windows.slice(BEFORE - 1, BEFORE + 2).some(({ doubtful }) => doubtful);
    if (isDoubtful) return true;
    if (least < BAND_DB || !this.isSharp()) return false;
    if (crosses(one) && crosses(two)) return true;
    if (Math.min(Math.abs(one.mean), Math.abs(two.mean)) < CHANNEL_DB) return false;
    if (one.mean * two.mean < 0) return true;
    return Math.max(one.shape, two.shape) <= ALIKE_DB && Math.abs(one.mean - two.mean) >= APART_DB;
  }

  /** @returns null where a channel doesn't stand still before and after, changed by nothing, or where it was no noise */
  private step(channel: number): Step | null {
    const bands: number[] = [];
    const noise: number[] = [];
    let still = 0;
    for (let k = 0; k < INPUT_BAND_COUNT; k++) {
      const at = channel * INPUT_BAND_COUNT + k;
      const before = sorted(this.windows.slice(0, BEFORE), at);
      const after = sorted(this.windows.slice(BEFORE + 1), at);
      if (range(before) <= STEADY_DB && range(after) <= STEADY_DB) still++;
      noise.push(noiseOf(before));
      bands.push(noiseOf(after) - noiseOf(before));
    }
    if (still < STEADY_BANDS || rms(bands) < APART_DB) return null;
    const isNoise = (db: number, k: number): boolean => db - this.leastBefore(channel, k) <= NEAR_LEAST_DB;
    if (noise.filter(isNoise).length < STEADY_BANDS) return null;
    const mean = bands.reduce((sum, d) => sum + d, 0) / bands.length;
    return { bands, mean, shape: rms(bands.map((d) => d - mean)), rms: rms(bands) };
  }

  /** dB, of the minute before the moment in question */
  private leastBefore(channel: number, band: number): number {
    const at = channel * INPUT_BAND_COUNT + band;
    let low = 0;
    for (let w = 0; w < this.least.length - AFTER - 1; w++) low = Math.min(low, this.least[w]?.[at] as number);
    return low;
  }

  /** From one window to the next but one. */
  private isSharp(): boolean {
    const last = this.windows.slice(BEFORE - SHARP_WINDOWS, BEFORE);
    const first = this.windows.slice(BEFORE + 1, BEFORE + 1 + SHARP_WINDOWS);
    const shares = [0, 0];
    const counts = [0, 0];
    for (let at = 0; at < VALUES; at++) {
      const before = noiseOf(sorted(this.windows.slice(0, BEFORE), at));
      const after = noiseOf(sorted(this.windows.slice(BEFORE + 1), at));
      if (Math.abs(after - before) < BAND_DB) continue;
      const channel = at < INPUT_BAND_COUNT ? 0 : 1;
      const middle = (before + after) / 2;
      const right = leastOf(last, at) < middle === before < middle && leastOf(first, at) < middle === after < middle;
      counts[channel] = (counts[channel] as number) + 1;
      if (right) shares[channel] = (shares[channel] as number) + 1;
    }
    return shares.every((share, channel) => share > 0 && share >= SHARP_SHARE * (counts[channel] as number));
  }
}

const sorted = (windows: readonly Window[], at: number): number[] =>
  windows.map(({ floor }) => floor[at] as number).sort((x, y) => x - y);
const at = (values: readonly number[], share: number): number =>
  values[Math.round(share * (values.length - 1))] as number;
const noiseOf = (values: readonly number[]): number => at(values, NOISE);
const range = (values: readonly number[]): number => at(values, LOUDER) - at(values, QUIETER);
const leastOf = (windows: readonly Window[], at: number): number => sorted(windows, at)[0] as number;

const rms = (values: readonly number[]): number => Math.sqrt(values.reduce((sum, d) => sum + d * d, 0) / values.length);

/** Some bands up, others down: nothing that is added or taken away does that, and no gain. */
const crosses = ({ bands }: Step): boolean => Math.max(...bands) >= BAND_DB && Math.min(...bands) <= -BAND_DB;
