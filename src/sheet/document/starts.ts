/**
 * Starting points: usual kits from two microphones to fourteen, with the pairs worth measuring, in the order of a round:
 * each drum by itself first, then the overheads against what they hear. Which microphones are usual is common practice, no
 * source.
 */
import type { PairKindId } from '../../advice/plan/pairKinds';
import { type KitSheet, type Microphone, newMicrophone, newPair, type Pair } from './model';

type MicrophoneId = keyof typeof MICROPHONES;

/** label, drum (empty: the whole kit), side */
const MICROPHONES = {
  kickIn: ['Kick in', 'kick', 'inside'],
  kickOut: ['Kick out', 'kick', 'outside'],
  kickDriver: ['Kick speaker', 'kick', 'front'],
  snareTop: ['Snare top', 'snare', 'top'],
  snareTop2: ['Snare top 2', 'snare', 'top'],
  snareBottom: ['Snare bottom', 'snare', 'bottom'],
  snareShell: ['Snare shell', 'snare', 'shell'],
  highTom: ['Rack tom', 'rack tom', 'top'],
  floorTom: ['Floor tom', 'floor tom', 'top'],
  hiHat: ['Hi-hat', 'hi-hat', 'top'],
  overheadLeft: ['Overhead left', '', 'above, left'],
  overheadRight: ['Overhead right', '', 'above, right'],
  overhead: ['Overhead', '', 'above'],
  room: ['Room', '', 'room'],
} as const;

type PairPlan = readonly [a: MicrophoneId, b: MicrophoneId, kind: PairKindId, drum: string];

/** In the order of a round. */
const PAIRS: readonly PairPlan[] = [
  ['kickIn', 'kickOut', 'inside-outside', 'kick'],
  ['kickOut', 'kickDriver', 'low-end-driver', 'kick'],
  ['snareTop', 'snareTop2', 'same-side', 'snare'],
  ['snareTop', 'snareBottom', 'top-bottom', 'snare'],
  ['snareTop', 'snareShell', 'shell-other', 'snare'],
  ['overheadLeft', 'overheadRight', 'two-overheads', 'snare'],
  ['snareTop', 'overhead', 'close-overhead', 'snare'],
  ['snareTop', 'overheadLeft', 'close-overhead', 'snare'],
  ['snareTop', 'overheadRight', 'close-overhead', 'snare'],
  ['kickIn', 'overhead', 'close-overhead', 'kick'],
  ['kickOut', 'overhead', 'close-overhead', 'kick'],
  ['kickOut', 'overheadLeft', 'close-overhead', 'kick'],
  ['snareTop', 'hiHat', 'other', 'snare'],
  ['highTom', 'overheadLeft', 'close-overhead', 'rack tom'],
  ['floorTom', 'overheadRight', 'close-overhead', 'floor tom'],
  ['snareTop', 'room', 'close-room', 'snare'],
];

export interface Start {
  id: string;
  title: string;
  microphones: readonly MicrophoneId[];
}

export const STARTS: readonly Start[] = [
  { id: 'two', title: 'Two: kick and one overhead', microphones: ['kickOut', 'overhead'] },
  { id: 'three', title: 'Three: kick, snare, one overhead', microphones: ['kickOut', 'snareTop', 'overhead'] },
  {
    id: 'four',
    title: 'Four: kick, snare, two overheads',
    microphones: ['kickOut', 'snareTop', 'overheadLeft', 'overheadRight'],
  },
  {
    id: 'eight',
    title: 'Eight: two on the kick, snare top and bottom, toms, overheads',
    microphones: [
      'kickIn',
      'kickOut',
      'snareTop',
      'snareBottom',
      'highTom',
      'floorTom',
      'overheadLeft',
      'overheadRight',
    ],
  },
  {
    id: 'eleven',
    title: 'Eleven: the same with a speaker as mic, hi-hat and room',
    microphones: [
      'kickIn',
      'kickOut',
      'kickDriver',
      'snareTop',
      'snareBottom',
      'hiHat',
      'highTom',
      'floorTom',
      'overheadLeft',
      'overheadRight',
      'room',
    ],
  },
  {
    id: 'fourteen',
    title: 'Fourteen: three on the kick, four on the snare, the rest of the kit',
    microphones: [
      'kickIn',
      'kickOut',
      'kickDriver',
      'snareTop',
      'snareTop2',
      'snareBottom',
      'snareShell',
      'hiHat',
      'highTom',
      'floorTom',
      'overheadLeft',
      'overheadRight',
      'overhead',
      'room',
    ],
  },
];

/** A sheet from a starting point: microphones on inputs 1 up, and every pair of the round whose two are there. */
export function sheetFrom(start: Start, id: string, name: string): KitSheet {
  const here = new Set<MicrophoneId>(start.microphones);
  const microphones = start.microphones.map((key, i): Microphone => {
    const [label, drum, side] = MICROPHONES[key];
    return newMicrophone(key, label, drum, side, String(i + 1));
  });
  const pairs = PAIRS.filter(([a, b]) => here.has(a) && here.has(b)).map(
    ([a, b, kind, drum]): Pair => newPair(`${a}-${b}`, a, b, kind, drum),
  );
  const drums = [...new Set(pairs.map(({ drum }) => drum))];
  const references = drums.map((drum) => ({ drum, microphone: (pairs.find((pair) => pair.drum === drum) as Pair).a }));
  const decides = here.has('snareTop') ? 'snare' : 'kick';
  const follows = microphones.filter(({ drum }) => drum === '').map((one) => ({ microphone: one.id, drum: decides }));
  return {
    id,
    name,
    note: '',
    sampleRate: 48000,
    temperatureC: 20,
    microphones,
    pairs,
    references,
    follows,
    drumPlaces: [],
  };
}
