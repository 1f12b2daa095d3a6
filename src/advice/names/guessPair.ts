/** What two microphones are to each other, guessed from what their files, channels or labels are called. Pure: names in, a guess out. */

import { type Mark, marksOf, type Place } from '../../text/micWords';
import { capital } from '../../text/sentence';
import type { PairKindId } from '../plan/pairKinds';

export interface PairGuess {
  /** 'other': the names don't say */
  kind: PairKindId;
  /** what the two are called; empty: the names don't say */
  a: string;
  b: string;
  /** the drum that the pair is about; empty: none is named, or more than one */
  drum: string;
  /** which of the two is close to that drum; null: neither is known to be */
  closeTo: 'a' | 'b' | null;
  /** of two names: the second is the one to begin with (the one above, inside, close), and is A here */
  turned: boolean;
}

/** What a name says of one microphone. */
export interface MicGuess {
  /** the drum that it is close to; empty: not named, or it hears the whole kit */
  drum: string;
  place: Place | null;
  side: 'left' | 'right' | '';
  number: string;
  /** "Snare top"; empty: the name doesn't say */
  label: string;
}
type Mic = Omit<MicGuess, 'label'>;

const NOTHING: PairGuess = { kind: 'other', a: '', b: '', drum: '', closeTo: null, turned: false };

/** hears the whole kit, whatever drum is written beside it */
const FAR: readonly (Place | null)[] = ['overhead', 'room'];

/** @param names one that is of both microphones, or A's and B's */
export function guessPair(names: readonly string[]): PairGuess {
  const [one = '', two] = names;
  const read = two === undefined ? bothIn(one) : ([micIn(marksOf(one)), micIn(marksOf(two))] as const);
  if (read === null) return { ...NOTHING, drum: drumIn(one) };
  const [a, b] = together(...read);
  const kind = kindOf(a, b);
  const turned = two !== undefined && kind !== 'other' && rank(a) > rank(b);
  return guessOf(kind, turned ? [b, a] : [a, b], turned);
}

/** One microphone by its name alone: of a take, where nothing else is said. */
export function guessMic(name: string): MicGuess {
  const mic = micIn(marksOf(name));
  return { ...mic, label: labelOf(mic) };
}

/** One microphone as somebody says what it is. */
export const micSaid = (mic: Omit<MicGuess, 'label'>): MicGuess => ({ ...mic, label: labelOf(mic) });

/** It hears the whole kit. */
export const hearsAll = ({ place }: Pick<MicGuess, 'place'>): boolean => FAR.includes(place);

/** What two microphones are to each other, each known by its own name. */
export const kindBetween = (a: MicGuess, b: MicGuess): PairKindId => kindOf(a, b);

/** The only drum that a text names; empty: none, or several. */
export function drumIn(text: string): string {
  const drums = new Set(marksOf(text).flatMap((mark) => ('drum' in mark ? [drumOf(mark)] : [])));
  return drums.size === 1 ? ([...drums][0] as string) : '';
}

/** Two files that by their names are the other way round than what A and B are called. */
export function areCrossed(files: readonly string[], labels: readonly [string, string]): boolean {
  const called = (name: string): string => guessPair([name, '']).a;
  const [one = '', two = ''] = files.map(called);
  const [a, b] = labels.map(called);
  return files.length === 2 && one !== two && one !== '' && two !== '' && one === b && two === a;
}

function guessOf(kind: PairKindId, [a, b]: readonly [Mic, Mic], turned: boolean): PairGuess {
  const close = (mic: Mic): boolean => mic.drum !== '' && !FAR.includes(mic.place);
  const drums = [...new Set([a, b].filter(close).map((mic) => mic.drum))];
  const drum = drums.length === 1 ? (drums[0] as string) : '';
  const closeTo = drum === '' ? null : close(a) ? 'a' : 'b';
  const [first, second] = [labelOf(a), labelOf(b)];
  if (first === '' || first !== second) return { kind, a: first, b: second, drum, closeTo, turned };
  const parted = a.side !== '' && b.side !== '' && a.side !== b.side ? [a.side, b.side] : ['1', '2'];
  return { kind, a: `${first} ${parted[0]}`, b: `${second} ${parted[1]}`, drum, closeTo, turned };
}

/** One microphone of all that its name says. */
function micIn(marks: readonly Mark[]): Mic {
  const named = marks.flatMap((mark) => ('drum' in mark ? [drumOf(mark)] : []))[0] ?? '';
  const places = marks.flatMap((mark) => ('place' in mark ? [mark] : []));
  const telling = ['overhead', 'room', 'driver'] as const;
  const found =
    telling.flatMap((far) => places.filter(({ place }) => place === far))[0] ??
    places.find(({ place }) => placeOn(named, place) !== null);
  const side = marks.flatMap((mark) => ('side' in mark ? [mark.side] : []))[0] ?? '';
  const place = found?.place ?? null;
  return { drum: FAR.includes(place) ? '' : named, place, side, number: found?.number ?? '' };
}

/** A name that is of both: two places on one drum, a drum and what hears it from afar, two drums, a stereo pair. Null: none of these. */
function bothIn(name: string): readonly [Mic, Mic] | null {
  const marks = marksOf(name);
  const drums = [...new Set(marks.flatMap((mark) => ('drum' in mark ? [drumOf(mark)] : [])))];
  const [drum = '', other] = drums;
  const places = marks.flatMap((mark) => ('place' in mark && placeOn(drum, mark.place) !== null ? [mark] : []));
  const [first, second, third] = places;
  if (third || drums.length > 2 || (other && first)) return null;
  if (other) return [micOn(drum, null), micOn(other, null)];
  if (!first) return null;
  if (second) return [micOn(drum, first.place), micOn(drum, second.place)];
  const { place, several } = first;
  if (drum === '' && FAR.includes(place)) return [micOn('', place, 'left'), micOn('', place, 'right')];
  if (several) return [micOn(drum, place), micOn(drum, place)];
  if (drum === '') return null;
  return FAR.includes(place) || place === 'driver' ? [micOn(drum, null), micOn(drum, place)] : null;
}

function micOn(drum: string, place: Place | null, side: Mic['side'] = ''): Mic {
  return { drum: FAR.includes(place) ? '' : drum, place, side, number: '' };
}

/** "tom 2"; the number of any other drum is a microphone's or a take's */
const drumOf = ({ drum, number }: { drum: string; number: string }): string =>
  drum.endsWith('tom') && number !== '' ? `${drum} ${number}` : drum;

/** A place without a drum is on the other's drum; what it means follows from there. */
function together(a: Mic, b: Mic): readonly [Mic, Mic] {
  const on = (mic: Mic, drum: string): Mic => {
    const own = mic.drum || (mic.place !== null && !FAR.includes(mic.place) ? drum : '');
    const nobodys = own === '' && mic.place !== null && ON_KICK.includes(mic.place);
    return { ...mic, drum: own, place: mic.place === null || nobodys ? null : placeOn(own, mic.place) };
  };
  return [on(a, b.drum), on(b, a.drum)];
}

/** places of a kick and of no other drum */
const ON_KICK: readonly Place[] = ['inside', 'outside', 'front', 'beater'];

/** Null: there is no such place on that drum. Without a drum "in" and "out" may be anything's. */
function placeOn(drum: string, place: Place): Place | null {
  if (drum === 'kick') {
    if (place === 'batter') return 'beater';
    return place === 'reso' ? 'front' : place;
  }
  if (place === 'batter') return 'top';
  if (place === 'reso') return 'bottom';
  return ON_KICK.includes(place) && drum !== '' ? null : place;
}

const isFront = (place: Place | null): boolean => place === 'outside' || place === 'front';

function kindOf(a: Mic, b: Mic): PairKindId {
  const known = (mic: Mic): boolean => mic.drum !== '' || mic.place !== null;
  if (!known(a) || !known(b)) return 'other';
  const both = (place: Place): boolean => a.place === place && b.place === place;
  const one = (place: Place): boolean => a.place === place || b.place === place;
  if (both('overhead')) return 'two-overheads';
  if (both('room') || both('driver')) return 'other';
  if (one('room')) return 'close-room';
  if (one('driver')) return 'low-end-driver';
  if (one('overhead')) return 'close-overhead';
  return a.drum === b.drum ? onOneDrum(a, b) : 'other';
}

function onOneDrum(a: Mic, b: Mic): PairKindId {
  const { drum } = a;
  const one = (place: Place | null): boolean => a.place === place || b.place === place;
  const inside = one('inside');
  const front = isFront(a.place) || isFront(b.place);
  const plain = one(null);
  if (drum === 'kick') {
    if (inside && (front || plain)) return 'inside-outside';
    if (one('beater') && front) return 'both-sides-kick';
    if (front && plain) return 'inside-outside';
  } else if (inside || front || one('beater')) {
    return 'other';
  }
  // what isn't said to be below is above
  if (one('bottom') && (one('top') || (plain && drum !== 'kick'))) return 'top-bottom';
  if (one('shell')) return 'shell-other';
  return a.place !== null && a.place === b.place ? 'same-side' : 'other';
}

/** A comes first: the one above, inside, at the beater, close; left before right. */
function rank({ place, side }: Mic): number {
  if (place === 'room') return 4;
  if (place === 'overhead') return side === 'right' ? 3.5 : 3;
  if (place === 'shell' || place === 'driver') return 2;
  return place === 'bottom' || isFront(place) ? 1 : 0;
}

export const PLACE_WORDS: Readonly<Record<Place, string>> = {
  top: 'top',
  bottom: 'bottom',
  inside: 'in',
  outside: 'out',
  front: 'front',
  beater: 'beater side',
  batter: 'beater side',
  reso: 'front',
  shell: 'shell',
  overhead: 'overhead',
  room: 'room',
  driver: 'speaker',
};

/** "Snare top", "Overhead left", "Kick" */
function labelOf({ drum, place, side, number }: Mic): string {
  const word = place === null ? '' : PLACE_WORDS[place];
  const which = FAR.includes(place) ? side || number : '';
  return capital([drum, word, which].filter((part) => part !== '').join(' '));
}
