/** The screen keeps to its own terms and to generic names: looked for in the sources, comments left out. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { PAGE_SENTENCES } from '../../../src/audio/problems';

const SRC = fileURLToPath(new URL('../../../src/', import.meta.url));

/** Every file below these folders whose name ends so, without its comments. */
function sources(folders: readonly string[], ending: RegExp): { file: string; text: string }[] {
  return folders.flatMap((folder) =>
    (readdirSync(`${SRC}${folder}`, { recursive: true }) as string[])
      .filter((name) => ending.test(name))
      .map((name) => ({
        file: `${folder}/${name}`,
        text: readFileSync(`${SRC}${folder}/${name}`, 'utf8')
          .replace(/\/\*[\s\S]*?\*\//g, '')
          .replace(/(^|\s)\/\/.*$/gm, ''),
      })),
  );
}

const GENERIC = ['serif', 'sans-serif', 'system-ui', 'ui-serif', 'ui-sans-serif', 'inherit'];

describe('style sheets', () => {
  it('ask for generic font families only', () => {
    const asked = sources(['ui'], /\.css$/).flatMap(({ file, text }) =>
      [...text.matchAll(/(?:font|font-family|--serif|--sans):([^;]+);/g)].flatMap(([, value]) =>
        (value as string)
          .split(/,(?![^(]*\))/)
          .map((part) => ({ file, family: part.trim().split(/\s+/).at(-1) ?? '' })),
      ),
    );
    expect(asked.length).toBeGreaterThan(20);
    expect(asked.filter(({ family }) => !GENERIC.includes(family) && !/^var\(--(serif|sans)\)$/.test(family))).toEqual(
      [],
    );
  });
});

describe('sentences', () => {
  it('say “this browser”, and name none', () => {
    for (const text of Object.values(PAGE_SENTENCES)) expect(text).not.toMatch(/chrom|firefox|safari|edge|opera\b/i);
    expect(PAGE_SENTENCES['no-worklet']).toMatch(/^This browser can’t/);
  });

  it.each([
    ['an example, of the example kit', /demo[ -](kit|scene)/i],
    ['later in the mix', /\bnudg/i],
    ['contour', /['">]Voicing/],
    ['hear it', /[>'"]\s*Listen\b(?!ing)/],
  ])('call it %s', (_, other) => {
    const shown = sources(['ui', 'state', 'audio'], /\.tsx?$/);
    const found = shown.flatMap(({ file, text }) =>
      text.split('\n').flatMap((line) => (other.test(line) ? [`${file}: ${line.trim()}`] : [])),
    );
    expect(found.filter((line) => !/\.(nudge|voicing)\b/.test(line))).toEqual([]);
  });
});
