/** The files of a take, opened: as the one that leads and each hand do, all alike. */
import { type OpenChannels, openChannels } from '../../files/openChannels';
import { blobSlices } from '../../files/slices';
import { type Told, type ToldTracks, toldTracks } from '../../take/told/told';
import type { FoundTrack } from './takeMessages';

/** The tracks that are to be read. */
export interface OpenTake extends ToldTracks {
  found: FoundTrack[];
  close(): void;
}

/** Never rejects: a file that can't be read is a track that says why. */
export async function openTake(files: readonly File[], told: Told): Promise<OpenTake> {
  const opened: OpenChannels[] = await Promise.all(files.map((file) => openChannels(file.name, blobSlices(file))));
  const read = toldTracks(
    opened.flatMap((one) => one.tracks),
    told,
  );
  return {
    ...read,
    found: read.tracks.map(({ file, sampleRate, frames }) => ({ file, sampleRate, frames })),
    close() {
      for (const one of opened) one.close();
    },
  };
}
