/** What a first visit loads: every file of the built page but the demo kit's sounds, gzip level 9. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

export const MOST_BYTES = 90_000;

export interface FileWeight {
  file: string;
  bytes: number;
  gzipped: number;
}

/** @param dir the built page */
export function pageWeight(dir: string): FileWeight[] {
  return readdirSync(dir, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.endsWith('.wav'))
    .map((entry) => {
      const bytes = readFileSync(join(entry.parentPath, entry.name));
      return { file: entry.name, bytes: bytes.length, gzipped: gzipSync(bytes, { level: 9 }).length };
    })
    .sort((a, b) => b.gzipped - a.gzipped);
}

export const gzippedBytes = (files: readonly FileWeight[]): number =>
  files.reduce((sum, file) => sum + file.gzipped, 0);
