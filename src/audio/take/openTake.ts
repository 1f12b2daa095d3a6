/** The files of a take, opened: as the one that leads and each hand do, all alike. */
import { type OpenChannels, openChannels } from '../../files/openChannels';
import { blobSlices } from '../../files/slices';
import type { TakeTrack } from '../../take/model';
import type { FoundTrack } from './takeMessages';

export interface OpenTake {
  tracks: TakeTrack[];
  found: FoundTrack[];
  close(): void;
}

/** Never rejects: a file that can't be read is a track that says why. */
export async function openTake(files: readonly File[]): Promise<OpenTake> {
  const opened: OpenChannels[] = await Promise.all(files.map((file) => openChannels(file.name, blobSlices(file))));
  const tracks = opened.flatMap((one) => one.tracks);
  return {
    tracks,
    found: tracks.map(({ file, sampleRate, frames }) => ({ file, sampleRate, frames })),
    close() {
      for (const one of opened) one.close();
    },
  };
}
