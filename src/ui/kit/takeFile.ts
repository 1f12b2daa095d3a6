/** A sheet's file that a person chose or dropped. */
import { MOST_FILE_BYTES } from '../../sheet/document/file';
import type { KitShelf } from '../../state/shelf/kitShelf';

/** Files larger than this aren't read at all, bytes: twice what a sheet may have. */
const LARGEST_FILE_BYTES = 2 * MOST_FILE_BYTES;

/** @returns empty: it is open now; else what is wrong with it, and nothing was changed */
export async function takeFile(file: File, shelf: KitShelf): Promise<string> {
  if (file.size > LARGEST_FILE_BYTES)
    return 'This file is far larger than a kit sheet can be; choose the file that was exported here.';
  const text = await file.text().catch(() => null);
  return text === null ? 'This file can’t be read; check that it is still there, then try again.' : shelf.take(text);
}
