/** Fifty and more broken, foreign and hostile files, and the one that they were made from. */
import { FILE_FORMAT, MOST_FILE_BYTES, writeSheet } from '../../../src/sheet/document/file';
import type { Taken } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { DONE } from './sheets';
import { TAKEN, timing } from './taken';

export const SAVED = '2026-01-02T03:04:05Z';
export const fourteen = sheetFrom(STARTS.at(-1) as (typeof STARTS)[number], 'kit-1', 'Harbour hall');
export const written = writeSheet(fourteen, SAVED);

/** The file with one thing changed: a path of keys, and what stands there then. */
export function changed(path: (string | number)[], value: unknown): string {
  const file = JSON.parse(written) as unknown;
  let at = file as Record<string | number, unknown>;
  for (const key of path.slice(0, -1)) at = at[key] as Record<string | number, unknown>;
  const last = path.at(-1) as string | number;
  if (value === undefined) delete at[last];
  else at[last] = value;
  return JSON.stringify(file);
}

export const MARKUP = '<img src=x onerror="globalThis.harmed = true">';
export const first = (key: string): (string | number)[] => ['kit', 'microphones', 0, key];
const pair = (key: string): (string | number)[] => ['kit', 'pairs', 0, key];
const taken = (part: Partial<Record<keyof Taken, unknown>>): string => changed(pair('before'), { ...TAKEN, ...part });

const CURVE = { fromMs: -1.25, stepMs: 1 / 48, low: new Array(121).fill(0.5), all: null };

/** Each with a word that its sentence must hold. */
export const BROKEN: [name: string, text: string, says: string][] = [
  ['empty', '', 'damaged'],
  ['blank', ' \n\t', 'damaged'],
  ...[0.1, 0.3, 0.5, 0.7, 0.9, 0.999].map((share): [string, string, string] => [
    `cut after ${100 * share} %`,
    written.slice(0, Math.floor(share * written.length) - 1),
    'damaged',
  ]),
  ['a wave file', 'RIFF\u0000\u0000\u0000\u0000WAVEfmt ', 'damaged'],
  ['a web page', '<!doctype html><script>globalThis.harmed = true</script>', 'damaged'],
  ['program text', 'globalThis.harmed = true', 'damaged'],
  ['a spreadsheet', 'label;drum;side\nSnare top;snare;top\n', 'damaged'],
  ['null', 'null', 'isn’t a kit sheet'],
  ['a number', '42', 'isn’t a kit sheet'],
  ['a list', '[]', 'isn’t a kit sheet'],
  ['another object', '{"name":"something"}', 'isn’t a kit sheet'],
  ['another format', changed(['format'], 'another-sheet'), 'isn’t a kit sheet'],
  ['no format', changed(['format'], undefined), 'isn’t a kit sheet'],
  ['version as text', changed(['version'], '1'), 'isn’t a kit sheet'],
  ['version 0', changed(['version'], 0), 'isn’t a kit sheet'],
  ['version 1.5', changed(['version'], 1.5), 'isn’t a kit sheet'],
  ['a newer version', changed(['version'], 8), 'newer version'],
  ['version 6 called version 1', changed(['version'], 1), 'microphones'],
  ['version 6 called version 2', changed(['version'], 2), 'microphones'],
  ['version 6 called version 4', changed(['version'], 4), 'microphones'],
  ['a place off the drawing', changed(first('place'), { x: 1.2, y: 0.5 }), 'microphones.0.place.x'],
  ['a place without a height', changed(first('place'), { x: 0.2 }), 'microphones.0.place'],
  [
    'a drum’s place of two kinds',
    changed(['kit', 'drumPlaces'], [{ drum: 'snare', place: null }]),
    'drumPlaces.0.place',
  ],
  ['a far newer version', changed(['version'], 1e300), 'newer version'],
  ['huge', `{"format":"${FILE_FORMAT}","version":1,"kit":"${'x'.repeat(MOST_FILE_BYTES)}"}`, 'larger'],
  ['nested without end', '['.repeat(1_000_000), 'damaged'],
  [
    'nested deep',
    `{"format":"${FILE_FORMAT}","version":1,"kit":${'['.repeat(5000)}${']'.repeat(5000)}}`,
    'damaged (at “',
  ],
  ['no kit', changed(['kit'], undefined), 'damaged (at “'],
  ['kit null', changed(['kit'], null), 'damaged (at “'],
  ['no microphones', changed(['kit', 'microphones'], undefined), 'microphones'],
  ['microphones an object', changed(['kit', 'microphones'], {}), 'microphones'],
  [
    'too many microphones',
    changed(['kit', 'microphones'], new Array(1000).fill(fourteen.microphones[0])),
    '1000 mics; the limit is',
  ],
  ['a label that is a number', changed(first('label'), 7), 'label'],
  ['a label that is an object', changed(first('label'), { toString: 'x' }), 'label'],
  ['a label without end', changed(first('label'), 'x'.repeat(100_000)), 'label'],
  ['a switch as text', changed(first('inverted'), 'yes'), 'inverted'],
  ['an unknown field', changed(first('script'), 'globalThis.harmed = true'), 'script'],
  ['an id of markup', changed(first('id'), MARKUP), 'id'],
  ['an id twice', changed(first('id'), 'kickOut'), 'Kick out has the id of another mic'],
  ['a pair of one', changed(pair('b'), 'kickIn'), 'Kick in is paired with itself'],
  ['a pair with nobody', changed(pair('b'), 'nobody'), 'Kick in & unnamed (kick) has a mic that isn’t on the sheet'],
  ['an unknown pair kind', changed(pair('kind'), 'top-and-left'), 'kind'],
  [
    'a reference that isn’t there',
    changed(['kit', 'references', 0, 'microphone'], 'nobody'),
    'the delays of the kick are told against a mic that isn’t on the sheet',
  ],
  [
    'two references of one drum',
    changed(
      ['kit', 'references'],
      [0, 1].map(() => fourteen.references[0]),
    ),
    'contradicts itself',
  ],
  ['a rate of 0', changed(['kit', 'sampleRate'], 0), 'sampleRate'],
  ['a rate of null', changed(['kit', 'sampleRate'], null), 'sampleRate'],
  ['a temperature as text', changed(['kit', 'temperatureC'], '20'), 'temperatureC'],
  ['a delay that is endless', taken({ delayMs: 1e308 }), 'delayMs'],
  ['a delay as text', taken({ delayMs: '0.07' }), 'delayMs'],
  ['a polarity of its own', taken({ polarity: 'reversed' }), 'polarity'],
  ['a picture cut short', taken({ sumDb: [0, 1, 2] }), 'sumDb'],
  ['a picture of text', taken({ sumDb: new Array(61).fill('0') }), 'sumDb'],
  ['a coherency too few', taken({ octaveCoherency: [0.1] }), 'octaveCoherency'],
  ['timings that don’t begin with the present', taken({ timings: [timing(0.1, 0.1, { delayMs: 2 })] }), 'timings'],
  [
    'a delay and a move at once',
    taken({ timings: [timing(0, 0), timing(0, 0, { delayMs: 2, moveCm: 3 })] }),
    'timings',
  ],
  ['a curve that isn’t whole', taken({ sumByDelay: { ...CURVE, low: CURVE.low.slice(1) } }), 'sumByDelay'],
  ['a curve beyond ±1', taken({ sumByDelay: { ...CURVE, all: CURVE.low.map(() => 1.2) } }), 'sumByDelay'],
  ['a curve of no steps', taken({ sumByDelay: { ...CURVE, stepMs: 0 } }), 'sumByDelay'],
  ['no curve, and not even none', taken({ sumByDelay: undefined }), 'sumByDelay'],
  ['timings without end', taken({ timings: new Array(1000).fill(timing(0, 0)) }), 'timings'],
  [
    'a level that is endless',
    taken({ timings: [{ ...timing(0, 0), asIs: { lowDb: 1e9, allDb: 0, bandsDb: [] } }] }),
    'lowDb',
  ],
  ['a plan by halves', taken({ plan: { invertB: true } }), 'plan'],
  ['a plan that delays and moves', taken({ plan: { invertB: false, delayMs: 1, moveCm: 1 } }), 'plan'],
  ['something for later by halves', changed(pair('done'), { ...DONE, later: { delayMs: 1 } }), 'later'],
  ['a second look of its own', changed(pair('checked'), { change: 'gone' }), 'checked'],
  ['an agreement above 1', taken({ agreement: 9 }), 'agreement'],
  ['half a hit', taken({ hits: 3.5 }), 'hits'],
  ['a time that is none', taken({ takenAt: 'yesterday' }), 'takenAt'],
  ['a reading without evidence', changed(pair('before'), { polarity: 'same' }), 'before'],
  [
    'a prototype',
    written.replace('"label": "Kick in"', '"label": "Kick in", "__proto__": { "polluted": true }'),
    'damaged (at “',
  ],
];
