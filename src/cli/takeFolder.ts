/** The audio files of a folder as tracks of one take. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { openChannels, unreadable } from '../files/openChannels';
import type { TakeTrack } from '../take/model';
import { isAudioName } from '../text/trackNames';
import { openFile } from './fileSlices';
import { UsageError } from './options';
import { whyNot } from './takes';

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
    const file = await openFile(join(folder, name)).catch((thrown) => whyNot(thrown));
    if (typeof file === 'string') {
      tracks.push(unreadable(name, file));
      continue;
    }
    const opened = await openChannels(name, file, whyNot);
    tracks.push(...opened.tracks);
    closes.push(async () => {
      opened.close();
      await file.close();
    });
  }
  return {
    tracks,
    async close() {
      for (const close of closes) await close();
    },
  };
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder)
      .filter(isAudioName)
      .sort((p, q) => p.localeCompare(q, 'en', { numeric: true }));
  } catch (thrown) {
    const isFile = typeof thrown === 'object' && thrown !== null && 'code' in thrown && thrown.code === 'ENOTDIR';
    throw new UsageError(
      isFile ? `${folder} is a file; --take needs the folder of the tracks.` : `${folder} ${whyNot(thrown)}`,
    );
  }
}
