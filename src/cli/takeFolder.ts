/** The audio files of a folder as tracks of one take. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { openTrack } from '../files/openTrack';
import { rateProblem } from '../files/soundness';
import type { Track } from '../files/track';
import { WavError } from '../files/wavChunks';
import type { TakeTrack } from '../take/model';
import { openFile } from './fileSlices';
import { UsageError } from './options';
import { whyNot } from './takes';

const AUDIO = /\.(wav|wave|bwf|rf64|w64|flac)$/i;

export interface OpenTake {
  tracks: TakeTrack[];
  close(): Promise<void>;
}

/** Each channel of each file is a track; by name. @throws UsageError for a folder that isn't one, or holds no audio */
export async function openFolder(folder: string): Promise<OpenTake> {
  const names = namesIn(folder);
  if (names.length === 0)
    throw new UsageError(`there is no audio file in ${folder}; name a folder with the take’s tracks, WAV or FLAC.`);
  const closes: (() => Promise<void>)[] = [];
  const tracks: TakeTrack[] = [];
  for (const name of names) {
    try {
      const file = await openFile(join(folder, name));
      closes.push(() => file.close());
      const track = await openTrack(file);
      closes.push(async () => track.close());
      tracks.push(...channelsOf(name, track));
    } catch (thrown) {
      tracks.push(unreadable(name, thrown instanceof WavError ? thrown.message : whyNot(thrown)));
    }
  }
  return {
    tracks,
    async close() {
      for (const close of closes.reverse()) await close();
    },
  };
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder)
      .filter((name) => AUDIO.test(name) && !name.startsWith('.'))
      .sort((p, q) => p.localeCompare(q, 'en', { numeric: true }));
  } catch (thrown) {
    const isFile = typeof thrown === 'object' && thrown !== null && 'code' in thrown && thrown.code === 'ENOTDIR';
    throw new UsageError(
      isFile ? `${folder} is a file; --take needs the folder of the tracks.` : `${folder} ${whyNot(thrown)}`,
    );
  }
}

function channelsOf(file: string, track: Track): TakeTrack[] {
  const { sampleRate, channels, frames, startFrame } = track;
  const problem = rateProblem(sampleRate);
  return Array.from({ length: channels }, (_, c): TakeTrack => {
    const into = (x: Float32Array): (Float32Array | null)[] =>
      Array.from({ length: channels }, (_, k) => (k === c ? x : null));
    return {
      file: channels === 1 ? file : `${file} · ${c + 1}`,
      channel: c + 1,
      sampleRate,
      frames,
      startFrame,
      ...(problem ? { problem: problem.message } : {}),
      read: (fromFrame, x) => track.read(fromFrame, into(x)),
    };
  });
}

const unreadable = (file: string, problem: string): TakeTrack => ({
  file,
  channel: 1,
  sampleRate: 0,
  frames: 0,
  startFrame: null,
  problem,
  read: async () => 0,
});
