/** Says what a file is, by its bytes and not by its name, and reads it in slices. */
import { flacAt } from './flac/streamInfo';
import { answeredBy, type Slices } from './slices';
import type { Track } from './track';
import { openWav } from './wavTrack';

/** @throws WavError: one sentence that follows the file's name; whatever `slices` rejects with */
export async function openTrack(slices: Slices): Promise<Track> {
  const start = await answeredBy(flacAt(), slices);
  if (start === null) return openWav(slices);
  // its code comes with the first such file
  const { openFlac } = await import('./flac/flacTrack');
  return openFlac(slices, start);
}
