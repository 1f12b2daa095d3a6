/**
 * What an input sounds like between the hits: for each channel the power in octave bands, and of its quietest moment, window
 * by window; and what the two have in common with no delay between them. By this a change of input is told from a change of gain.
 */
import { INPUT_BAND_COUNT, inputBandHz } from '../../reading/bands';
import { BandPair } from '../signal/bandPair';

/** of one window: short enough for the pauses between hits, long enough that a band's power holds within 2 dB */
const PART_SECONDS = 0.032;
const PARTS = 8;

export class BandGauge {
  /** windows that are complete; the arrays below are of the newest */
  windows = 0;
  /** longest run of frames that were exactly zero in both, within the window */
  longestZero = 0;
  /** mean squares, and mean products of A and B, band by band; full scale ±1 */
  readonly a = new Float64Array(INPUT_BAND_COUNT);
  readonly b = new Float64Array(INPUT_BAND_COUNT);
  readonly product = new Float64Array(INPUT_BAND_COUNT);
  /** mean squares of the quietest eighth */
  readonly floorA = new Float64Array(INPUT_BAND_COUNT);
  readonly floorB = new Float64Array(INPUT_BAND_COUNT);
  private readonly octaves: BandPair[] = [];
  /** of the octave that is looked at */
  private readonly inA: Float64Array;
  private readonly inB: Float64Array;
  /** three sums a band: A·A, B·B, A·B; of the part under way, and of the window */
  private readonly part = new Float64Array(3 * INPUT_BAND_COUNT);
  private readonly sums = new Float64Array(3 * INPUT_BAND_COUNT);
  private readonly least = new Float64Array(2 * INPUT_BAND_COUNT);
  private readonly partFrames: number;
  private inPart = 0;
  private parts = 0;
  private frames = 0;
  private zeroRun = 0;
  private longest = 0;

  /** @param stepFrames frames of a run at most */
  constructor(sampleRate: number, stepFrames: number) {
    this.inA = new Float64Array(stepFrames);
    this.inB = new Float64Array(stepFrames);
    for (let k = 0; k < INPUT_BAND_COUNT; k++) {
      const { lowHz, highHz } = inputBandHz(k);
      this.octaves.push(new BandPair(sampleRate, lowHz, highHz));
    }
    this.partFrames = Math.max(1, Math.round(PART_SECONDS * sampleRate));
    this.clear();
  }

  /** n frames of the inputs as they come. Real-time safe: yes. */
  run(a: Float64Array, b: Float64Array, n: number): void {
    let { zeroRun, longest } = this;
    for (let i = 0; i < n; i++) {
      if (a[i] !== 0 || b[i] !== 0) zeroRun = 0;
      else if (++zeroRun > longest) longest = zeroRun;
    }
    this.zeroRun = zeroRun;
    this.longest = longest;
    for (let k = 0; k < INPUT_BAND_COUNT; k++) {
      (this.octaves[k] as BandPair).run(a, b, this.inA, this.inB, n);
      this.add(3 * k, n);
    }
    this.inPart += n;
    if (this.inPart >= this.partFrames) this.endPart();
  }

  /** The octave's three sums, in `part` from `at` on. */
  private add(at: number, n: number): void {
    const { inA, inB, part } = this;
    let aa = part[at] as number;
    let bb = part[at + 1] as number;
    let ab = part[at + 2] as number;
    for (let i = 0; i < n; i++) {
      const u = inA[i] as number;
      const v = inB[i] as number;
      aa += u * u;
      bb += v * v;
      ab += u * v;
    }
    part[at] = aa;
    part[at + 1] = bb;
    part[at + 2] = ab;
  }

  private endPart(): void {
    const { part, sums, least, inPart } = this;
    for (let k = 0; k < INPUT_BAND_COUNT; k++) {
      for (let s = 3 * k; s < 3 * k + 3; s++) sums[s] = (sums[s] as number) + (part[s] as number);
      least[2 * k] = Math.min(least[2 * k] as number, (part[3 * k] as number) / inPart);
      least[2 * k + 1] = Math.min(least[2 * k + 1] as number, (part[3 * k + 1] as number) / inPart);
    }
    part.fill(0);
    this.frames += inPart;
    this.inPart = 0;
    if (++this.parts === PARTS) this.endWindow();
  }

  private endWindow(): void {
    const { sums, least, frames } = this;
    for (let k = 0; k < INPUT_BAND_COUNT; k++) {
      this.a[k] = (sums[3 * k] as number) / frames;
      this.b[k] = (sums[3 * k + 1] as number) / frames;
      this.product[k] = (sums[3 * k + 2] as number) / frames;
      this.floorA[k] = least[2 * k] as number;
      this.floorB[k] = least[2 * k + 1] as number;
    }
    this.longestZero = this.longest;
    this.windows++;
    this.clear();
  }

  /** Begin a window anew: what was A may be B from here on. Real-time safe: yes. */
  clear(): void {
    this.part.fill(0);
    this.sums.fill(0);
    this.least.fill(Number.POSITIVE_INFINITY);
    this.inPart = 0;
    this.parts = 0;
    this.frames = 0;
    this.longest = this.zeroRun;
  }
}
