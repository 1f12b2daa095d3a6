/** Kit sheets that can't be true, and browsers that can't keep them. */
import { BROKEN, changed } from '../../../support/readings/brokenSheets';
import { KIT, KIT_TEXT } from '../kept';
import { SHEET_STORAGE } from './sheetStorage';
import { SHEET_TABLE } from './sheetTable';
import { type SheetFault, sheetFaults } from './sheetTrial';

/** of all that the unit tests try (tests/support/readings/brokenSheets), one of each sort */
const TRIED = [
  'empty',
  'cut after 50 %',
  'a wave file',
  'a web page',
  'another object',
  'no format',
  'a far newer version',
  'huge',
  'nested without end',
  'too many microphones',
  'a label that is an object',
  'a label without end',
  'an unknown field',
  'an id of markup',
  'a delay that is endless',
  'a prototype',
];
const file = (name: string, text: () => string, told: RegExp, sub = 'damaged'): SheetFault => ({
  sub,
  name,
  how: 'its file chosen over a kit that is open',
  told,
  recovers: 'the kit that is open goes on',
  file: text,
});
const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

const measured = KIT.pairs.findIndex(({ before }) => before?.sure);
/** the example's sheet, of which one field says something else */
function contradictory(change: (pair: Record<string, unknown> & { before: Record<string, unknown> }) => void): string {
  const sheet = JSON.parse(KIT_TEXT) as { kit: { id: string; pairs: Record<string, unknown>[] } };
  sheet.kit.id = 'another';
  change(sheet.kit.pairs[measured] as Record<string, unknown> & { before: Record<string, unknown> });
  return JSON.stringify(sheet);
}
const against = (name: string, change: Parameters<typeof contradictory>[0], told: RegExp): SheetFault =>
  file(name, () => contradictory(change), told, 'contradictory');

const CONTRADICTS = [
  against(
    '50 hits used of 1',
    ({ before }) => Object.assign(before, { hits: 1, hitsUsed: 50 }),
    /contradicts itself.*50 of 1 hits used/,
  ),
  against(
    'certain without a polarity',
    ({ before }) => Object.assign(before, { polarity: null }),
    /contradicts itself.*certain, and no polarity/,
  ),
  against(
    'certain without a delay',
    ({ before }) => Object.assign(before, { delayMs: null }),
    /contradicts itself.*certain, and no delay/,
  ),
  against(
    'certain without a hit',
    ({ before }) => Object.assign(before, { hitsUsed: 0 }),
    /contradicts itself.*certain without a hit/,
  ),
  against(
    'accepted without a reading',
    (pair) => Object.assign(pair, { before: null, after: null, done: null }),
    /contradicts itself.*accepted without a reading/,
  ),
  against(
    'accepted before it was measured',
    (pair) => Object.assign(pair, { acceptedAt: '2001-01-01T00:00:00Z' }),
    /contradicts itself.*accepted before it was measured/,
  ),
  against('a mic paired with itself', (pair) => Object.assign(pair, { b: pair.a }), /paired with itself/),
  file(
    'a mic that isn’t on the sheet',
    () => changed(['kit', 'pairs', 0, 'b'], 'nobody'),
    /isn’t on (it|the sheet)/,
    'contradictory',
  ),
  file(
    'one id twice',
    () => changed(['kit', 'microphones', 0, 'id'], 'kickOut'),
    /one id twice|the id of another mic/,
    'contradictory',
  ),
];

export const SHEET_FAULTS = sheetFaults([
  ...TRIED.map((name) => {
    const [, text, says] = BROKEN.find(([one]) => one === name) as (typeof BROKEN)[number];
    return file(name, () => text, new RegExp(/^\w+$/.test(says) ? `\\b${says}\\b` : escaped(says)));
  }),
  ...CONTRADICTS,
  ...SHEET_STORAGE,
  ...SHEET_TABLE,
]);
