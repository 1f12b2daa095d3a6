/** Sheets of which each field is as it should be, and that can't be true: each with the place and the reason that its sentence names. */
import type { Pair, Taken } from '../../../src/sheet/document/model';
import { changed, fourteen } from './brokenSheets';
import { DONE } from './sheets';
import { TAKEN, timing } from './taken';

const ACCEPTED = '2026-01-02T03:10:00Z';
const CURVE = { fromMs: -1.25, stepMs: 1 / 48, low: new Array(121).fill(0.5), all: null };
const WHOSE = 'Kick in & Kick out (kick)';
const at = (key: string): (string | number)[] => ['kit', 'pairs', 0, key];

const pair = (change: Partial<Record<keyof Pair, unknown>>): string =>
  changed(['kit', 'pairs', 0], { ...fourteen.pairs[0], before: TAKEN, acceptedAt: ACCEPTED, ...change });
const reading = (change: Partial<Record<keyof Taken, unknown>>, key: 'before' | 'after' = 'before'): string =>
  pair({ [key]: { ...TAKEN, ...change } });
const levels = (lowDb: number) => ({ lowDb, allDb: 0, bandsDb: [0, 0, 0, 0] });

export const CONTRADICTORY: [name: string, text: string, says: string][] = [
  ['50 hits used of 1', reading({ hits: 1, hitsUsed: 50 }), `${WHOSE}, before: 50 of 1 hits used`],
  ['the same of the reading after', reading({ hits: 1, hitsUsed: 50 }, 'after'), `${WHOSE}, after: 50 of 1 hits used`],
  ['certain without a polarity', reading({ polarity: null }), `${WHOSE}, before: certain, and no polarity`],
  ['certain without a delay', reading({ delayMs: null }), `${WHOSE}, before: certain, and no delay`],
  ['certain without a hit', reading({ hitsUsed: 0 }), `${WHOSE}, before: certain without a hit`],
  ['certain by one hit', reading({ hits: 1, hitsUsed: 1 }), `${WHOSE}, before: certain by 1 hit`],
  [
    'moved, by nothing',
    pair({ checked: { checkedAt: '2026-01-02T03:20:00Z', change: 'moved', fartherCm: null } }),
    `${WHOSE}: rechecked: moved, and not by how much`,
  ],
  [
    'the same, five metres on',
    pair({ checked: { checkedAt: '2026-01-02T03:20:00Z', change: 'same', fartherCm: 500 } }),
    `${WHOSE}: rechecked: the same, and 500 cm apart`,
  ],
  ['accepted without a reading', changed(at('acceptedAt'), ACCEPTED), `${WHOSE}: accepted without a reading`],
  ['done without a reading', changed(at('done'), DONE), `${WHOSE}: something done, and no reading`],
  ['a reading after, none before', pair({ before: null, after: TAKEN }), `${WHOSE}: a reading after, and none before`],
  [
    'rechecked, not accepted',
    pair({ acceptedAt: null, checked: { checkedAt: ACCEPTED, change: 'same', fartherCm: null } }),
    `${WHOSE}: rechecked, and never accepted`,
  ],
  ['a mic with itself', changed(at('a'), 'kickOut'), 'Kick out is paired with itself'],
  [
    'a pair’s mic that isn’t there',
    changed(at('a'), 'gone'),
    'unnamed & Kick out (kick) has a mic that isn’t on the sheet',
  ],
  [
    'a reference that isn’t there',
    changed(['kit', 'references', 1, 'microphone'], 'gone'),
    'the delays of the snare are told against a mic that isn’t on the sheet',
  ],
  [
    'a drum in two places',
    changed(
      ['kit', 'drumPlaces'],
      [0.2, 0.4].map((x) => ({ drum: 'snare', place: { x, y: 0.5 } })),
    ),
    'the snare is in two places on the drawing',
  ],
  [
    'a drum that decides about nobody',
    changed(['kit', 'follows', 0, 'microphone'], 'gone'),
    'the snare decides about a mic that isn’t on the sheet',
  ],
  [
    'two references of one drum',
    changed(['kit', 'references', 1, 'drum'], 'kick'),
    'the delays of the kick are told against two mics at once',
  ],
  [
    'two drums that decide about one mic',
    changed(
      ['kit', 'follows'],
      [0, 1].map((i) => ({ ...fourteen.follows[0], drum: ['kick', 'snare'][i] })),
    ),
    'two drums decide about Overhead left',
  ],
  ['an id of two mics', changed(['kit', 'microphones', 1, 'id'], 'kickIn'), 'Kick out has the id of another mic'],
  ['an id of two pairs', changed(['kit', 'pairs', 1, 'id'], 'kickIn-kickOut'), 'two pairs have one id'],
  [
    'after that is older than before',
    reading({ takenAt: '2026-01-01T03:04:05Z' }, 'after'),
    `${WHOSE}: the reading after is older than the one before`,
  ],
  [
    'accepted before it was measured',
    pair({ acceptedAt: '2026-01-01T03:10:00Z' }),
    `${WHOSE}: accepted before it was measured`,
  ],
  [
    'rechecked before it was accepted',
    pair({ checked: { checkedAt: '2026-01-01T03:10:00Z', change: 'same', fartherCm: null } }),
    `${WHOSE}: rechecked before it was accepted`,
  ],
  [
    'a low octave upside down',
    reading({ fullerLowHz: 354, fullerHighHz: 177 }),
    'before: the drum’s low octave ends below where it begins',
  ],
  [
    'a sum beyond two mics',
    reading({ timings: [{ ...timing(0, 0), asIs: levels(12) }] }),
    'before: A+B more than 3 dB over the two mics’ power sum',
  ],
  [
    'a picture beyond two mics',
    reading({ sumDb: new Array(61).fill(20) }),
    'before: A+B more than 6 dB over one mic alone',
  ],
  [
    'sums of other delays',
    reading({ delayMs: 40, sumByDelay: CURVE }),
    'before: its sums are of other delays than its own',
  ],
  // a field that can't be so by itself
  [
    'an accuracy below 0',
    reading({ uncertaintyMs: -0.1 }),
    'before.uncertaintyMs”, Kick in & Kick out: -0.1, and 0 is the least',
  ],
  [
    'a coherency above 1',
    reading({ sumByDelay: { ...CURVE, all: new Array(121).fill(1.2) } }),
    'Kick in & Kick out: 1.2, and 1 is the most',
  ],
  ['a level of 900 dB', reading({ fullerDb: 900 }), 'before.fullerDb”, Kick in & Kick out: 900, and 200 is the most'],
];
