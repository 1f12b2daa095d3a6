/**
 * The table of everything a person can read in the product: `sentences.txt`, by source file.
 * `npx tsx tests/words/sentences.ts --write` writes it anew from the code.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { API } from 'typescript/unstable/sync';
import { sentencesOf } from './extract';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const TABLE = new URL('sentences.txt', import.meta.url);

/** the rooms whose strings reach a person; the rest of the code says nothing, or says it to programmers */
const ROOMS = ['ui', 'advice', 'text', 'state', 'sheet', 'take', 'teaching', 'audio', 'files', 'cli'].map(
  (room) => `src/${room}/`,
);
const PROJECTS = ['src', 'src/cli'].map((folder) => `${ROOT}${folder}/tsconfig.json`);

export type Table = Map<string, string[]>;

/** @returns the sentences of each source file, by its path, as the code has them now */
export function sentencesInCode(): Table {
  const api = new API({ cwd: ROOT });
  try {
    const snapshot = api.updateSnapshot({ openProjects: PROJECTS });
    const table: Table = new Map();
    for (const { program, checker } of snapshot.getProjects()) {
      for (const name of program.getSourceFileNames()) {
        const path = relative(ROOT, name).split(sep).join('/');
        const read = path === 'src/main.tsx' || ROOMS.some((room) => path.startsWith(room));
        const file = read && !table.has(path) ? program.getSourceFile(name) : undefined;
        if (file) table.set(path, sentencesOf(path, file, checker));
      }
    }
    return new Map([...table].filter(([, sentences]) => sentences.length > 0).sort(([a], [b]) => (a < b ? -1 : 1)));
  } finally {
    api.close();
  }
}

/** "## path", then a sentence a line; files are set apart by an empty line. */
export const written = (table: Table): string =>
  [...table].map(([path, sentences]) => `## ${path}\n${sentences.join('\n')}\n`).join('\n');

/** @returns the table as it is checked in */
export function sentencesInTable(): Table {
  const table: Table = new Map();
  for (const part of readFileSync(TABLE, 'utf8').split(/^## /m).slice(1)) {
    const [path, ...sentences] = part.trimEnd().split('\n');
    table.set(path as string, sentences);
  }
  return table;
}

if (process.argv[1] === fileURLToPath(import.meta.url) && process.argv.includes('--write')) {
  writeFileSync(TABLE, written(sentencesInCode()));
}
