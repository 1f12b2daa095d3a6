/** A file's channels, each a track of its own; a file that can't be read is one track that says why. */
import { openTrack } from './openTrack';
import type { Slices } from './slices';
import { rateProblem } from './soundness';
import type { Track } from './track';
import { WavError } from './wavChunks';

/** One channel of an opened file. */
export interface ChannelTrack {
  /** the file's name; of several channels with its number */
  file: string;
  /** from 1 */
  channel: number;
  sampleRate: number;
  frames: number;
  /** sample frames from midnight to the first one; null: the file doesn't tell */
  startFrame: number | null;
  /** why it can't be read, one sentence; absent: it can */
  problem?: string;
  /** Fills `into` from `fromFrame` on. @returns frames written; 0 beyond the end */
  read(fromFrame: number, into: Float32Array): Promise<number>;
  /** the file that it is a channel of, so that several are read, and decoded, at once; absent: it is read by itself */
  source?: Pick<Track, 'read'>;
}

export interface OpenChannels {
  tracks: ChannelTrack[];
  close(): void;
}

/** @param why the sentence for what isn't the file's own fault. Never rejects. */
export async function openChannels(
  file: string,
  slices: Slices,
  why: (thrown: unknown) => string = (thrown) => `It could not be read (${String(thrown)}); choose it again.`,
): Promise<OpenChannels> {
  try {
    const track = await openTrack(slices);
    return { tracks: channelsOf(file, track), close: () => track.close() };
  } catch (thrown) {
    return {
      tracks: [unreadable(file, thrown instanceof WavError ? thrown.message : why(thrown))],
      close: () => undefined,
    };
  }
}

function channelsOf(file: string, track: Track): ChannelTrack[] {
  const { sampleRate, channels, frames, startFrame } = track;
  const problem = rateProblem(sampleRate);
  return Array.from({ length: channels }, (_, c): ChannelTrack => {
    const only = (x: Float32Array): (Float32Array | null)[] =>
      Array.from({ length: channels }, (_, k) => (k === c ? x : null));
    return {
      file: channels === 1 ? file : `${file} · ${c + 1}`,
      channel: c + 1,
      sampleRate,
      frames,
      startFrame,
      ...(problem ? { problem: problem.message } : {}),
      read: (fromFrame, x) => track.read(fromFrame, only(x)),
      source: track,
    };
  });
}

export const unreadable = (file: string, problem: string): ChannelTrack => ({
  file,
  channel: 1,
  sampleRate: 0,
  frames: 0,
  startFrame: null,
  problem,
  read: async () => 0,
});
