/** One recorded file, of any size, that is read a slice at a time. */

export interface Track {
  readonly kind: 'wav' | 'flac';
  /** Hz */
  readonly sampleRate: number;
  readonly channels: number;
  /** sample frames that are there */
  readonly frames: number;
  readonly coding: 'pcm' | 'float';
  /** of a sample, those that count */
  readonly bits: number;
  /** sample frames, at this rate, from midnight to the first one (BWF time reference); null: the file doesn't tell */
  readonly startFrame: number | null;
  /** what is missing of it; read as far as it goes. null: nothing */
  readonly cut: Cut | null;
  /**
   * Fills one array a channel with the frames from `fromFrame` on, full scale ±1. All are of one length; null, or none: that
   * channel isn't wanted. Holds no more of the file than a few MiB, whatever the length.
   * @returns the frames written: fewer at the end, 0 beyond it
   * @throws RangeError for arrays that don't go together; WavError where the file is damaged; whatever its bytes come with
   */
  read(fromFrame: number, into: readonly (Float32Array | null)[]): Promise<number>;
  /** Lets go of what decodes it. Closes no file. */
  close(): void;
}

/** `cut-short`: it ends before its header says so. `unfinished`: its recorder stopped before it wrote how much there is. */
export type Cut = 'cut-short' | 'unfinished';

/** @returns the frames that can be read @throws RangeError */
export function framesToRead(
  fromFrame: number,
  into: readonly (Float32Array | null)[],
  channels: number,
  frames: number,
): number {
  if (into.length > channels) throw new RangeError(`into must have at most ${channels} arrays but had ${into.length}`);
  if (!Number.isSafeInteger(fromFrame) || fromFrame < 0) {
    throw new RangeError(`fromFrame must be a whole number from 0 on but was ${fromFrame}`);
  }
  const wanted = into.filter((out) => out !== null);
  const length = wanted[0]?.length ?? 0;
  for (const out of wanted) {
    if (out.length !== length) throw new RangeError(`all arrays must have length ${length} but one had ${out.length}`);
  }
  return Math.max(0, Math.min(length, frames - fromFrame));
}
