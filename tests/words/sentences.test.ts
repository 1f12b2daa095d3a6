import { fileURLToPath } from 'node:url';
import { API } from 'typescript/unstable/sync';
import { describe, expect, it } from 'vitest';
import { sentencesOf } from './extract';
import { FORBIDDEN } from './forbidden';
import { sentencesInCode, sentencesInTable, written } from './sentences';

const here = (name: string) => fileURLToPath(new URL(name, import.meta.url));

describe('the table of all sentences', () => {
  it('has what is in the code, and nothing else (npx tsx tests/words/sentences.ts --write)', () => {
    const code = sentencesInCode();
    const table = sentencesInTable();
    expect([...table.keys()]).toEqual([...code.keys()]);
    for (const [path, sentences] of code) expect({ path, sentences: table.get(path) }).toEqual({ path, sentences });
    expect(written(table)).toBe(written(code));
  });

  it('takes text and attributes of JSX, templates and strings, and leaves codes and wiring', () => {
    const api = new API({ cwd: here('.') });
    const snapshot = api.updateSnapshot({ openProjects: [here('example.tsconfig.json')] });
    const [project] = snapshot.getProjects();
    const file = project?.program.getSourceFile(here('example.tsx'));
    const found = file && project ? sentencesOf('example.tsx', file, project.checker) : [];
    api.close();
    expect(found).toEqual([
      'the input is {empty|too long}',
      'Nothing is open: choose one of {…}.',
      '{…} of {hits|strokes} agree',
      'B in words',
      'Move {…} closer to the drum, then {…}.',
      'Move {…} up',
      'measure again',
      'Ears. Step back. K',
      'no value',
    ]);
  });
});

describe('words that don’t belong on the screen', () => {
  const lines = [...sentencesInTable()].flatMap(([path, sentences]) => sentences.map((text) => ({ path, text })));

  it.each(FORBIDDEN)('$word: $reason; instead: $instead', ({ word, fine = [], todo = [] }) => {
    const found = lines.filter(({ text }) => word.test(text) && !fine.includes(text));
    expect(found.filter(({ path }) => !todo.includes(path))).toEqual([]);
    // what is excused without need would hide the next one
    expect(todo.filter((file) => !found.some(({ path }) => path === file))).toEqual([]);
    expect(fine.filter((sentence) => !lines.some(({ text }) => text === sentence && word.test(text)))).toEqual([]);
  });

  it('are found where they stand', () => {
    const hits = (text: string) => FORBIDDEN.filter(({ word }) => word.test(text)).length;
    expect(hits('Another witness, in the running')).toBe(2);
    expect(hits('Listen')).toBe(1);
    expect(hits('Listen on closed headphones')).toBe(0);
    expect(hits('Read this again in the next take')).toBe(0);
    expect(hits('the drum’s low octave')).toBe(0);
  });
});
