/** A sheet from a take's tracks: a mic a track, and the pairs worth having; and which pairs those are. */
import { hearsAll, type MicGuess } from '../../advice/names/guessPair';
import { addPair } from '../document/edits';
import { MOST_LABEL, MOST_MICROPHONES, MOST_PAIRS } from '../document/fileLimits';
import { type KitSheet, type Microphone, newMicrophone } from '../document/model';
import { soundPairs } from './holding';
import type { TrackMic } from './sheetMics';
import type { SheetTake, TrackPair } from './sheetTake';

/** Where on the drum, as the starts of a sheet have it. */
function sideOf({ place, side }: MicGuess): string {
  if (place === 'overhead') return side === '' ? 'above' : `above, ${side}`;
  if (place === 'driver') return 'front';
  return place ?? '';
}

/** "05 Room Front.wav": "Room Front" */
const ownName = (file: string): string =>
  file
    .replace(/\.[^.·]*(?= · |$)/, '')
    .replace(/^\d+[\s._-]+(?=\D)/, '')
    .trim();

/** A mic for each track; those that would be called alike have their tracks' own names, and a number where that doesn't help. Inputs aren't known: tracks tell none. */
export function micsOfTracks(tracks: readonly TrackMic[], there: readonly Microphone[] = []): Microphone[] {
  const made: Microphone[] = [];
  const isTaken = (of: 'id' | 'label', text: string): boolean =>
    [...there, ...made].some((one) => one[of].toLowerCase() === text.toLowerCase());
  const free = (of: 'id' | 'label', text: string): string => {
    if (text !== '' && !isTaken(of, text)) return text;
    for (let n = 2; ; n++) {
      const next = of === 'id' ? `${text}${n}` : `${text} ${n}`;
      if (!isTaken(of, next)) return next;
    }
  };
  for (const [i, { file, mic }] of tracks.entries()) {
    const alike = tracks.filter((one) => one.mic.label === mic.label).length > 1;
    const label = free('label', (alike ? ownName(file) : mic.label).slice(0, MOST_LABEL - 4));
    const drum = hearsAll(mic) ? '' : mic.drum;
    made.push({ ...newMicrophone(free('id', `track-${i + 1}`), label, drum, sideOf(mic), ''), note: `Track ${file}` });
  }
  return made.slice(0, Math.max(0, MOST_MICROPHONES - there.length));
}

/** What the open sheet knows a track and a drum by. */
export interface OnSheet {
  /** id of the mic by file */
  mics: ReadonlyMap<string, string>;
  /** the drum as the sheet calls it: its own mic's */
  drumOf(drum: string): string;
}

export function onSheet(
  sheet: KitSheet,
  { drums }: Pick<SheetTake, 'drums'>,
  mics: ReadonlyMap<string, string>,
): OnSheet {
  const called = new Map(
    drums.flatMap(({ drum, own }) => {
      const mic = sheet.microphones.find(({ id }) => own !== null && id === mics.get(own));
      return mic && mic.drum !== '' ? [[drum, mic.drum] as const] : [];
    }),
  );
  return { mics, drumOf: (drum) => called.get(drum) ?? drum };
}

/**
 * Worth a pair on the sheet: the drum's own mics and those that hear all, among each other. What another drum's mic hears of it
 * decides about nothing.
 */
function isWorthIt(sheet: KitSheet, drum: string, ids: readonly string[]): boolean {
  const drums = ids.map((id) => sheet.microphones.find((one) => one.id === id)?.drum);
  return drums.every((one) => one === '' || one === drum);
}

/** The sheet's pair of these two and this drum; `turned`: its A is the track's B. */
export function pairOnSheet(sheet: KitSheet, on: OnSheet, { drum, a, b }: TrackPair) {
  const [idA, idB, called] = [on.mics.get(a), on.mics.get(b), on.drumOf(drum)];
  if (idA === undefined || idB === undefined) return null;
  const pair = sheet.pairs.find(
    (one) => one.drum === called && ((one.a === idA && one.b === idB) || (one.a === idB && one.b === idA)),
  );
  return { a: idA, b: idB, drum: called, pair: pair ?? null, turned: pair !== undefined && pair.a === idB };
}

/** Pairs that the sheet hasn't yet and that are worth having are added, as far as there is room. */
export function withPairs(sheet: KitSheet, on: OnSheet, pairs: readonly TrackPair[]): KitSheet {
  return pairs.reduce((next, one) => {
    const there = pairOnSheet(next, on, one);
    if (there === null || there.pair !== null || next.pairs.length >= MOST_PAIRS) return next;
    if (!isWorthIt(next, there.drum, [there.a, there.b])) return next;
    return addPair(next, there.a, there.b, one.kind, there.drum);
  }, sheet);
}

/** Drums that decide about the switch of a mic that hears all, the first that is there. */
const DECIDES = ['snare', 'kick'];

/** A new sheet with a mic a track and the pairs that were read, without their readings. @param title at most 80 letters */
export function sheetOfTake(take: SheetTake, id: string, title: string): KitSheet {
  const microphones = micsOfTracks(take.tracks);
  const mics = new Map(microphones.map((one, i) => [(take.tracks[i] as TrackMic).file, one.id]));
  const empty: KitSheet = {
    id,
    name: title,
    note: '',
    sampleRate: take.sampleRate,
    temperatureC: take.temperatureC,
    microphones,
    pairs: [],
    references: [],
    follows: [],
    drumPlaces: [],
  };
  const sheet = withPairs(empty, onSheet(empty, take, mics), soundPairs(take));
  const references = sheet.references.map((one) => {
    const own = take.drums.find(({ drum }) => drum === one.drum)?.own;
    return { ...one, microphone: (own && mics.get(own)) ?? one.microphone };
  });
  const decides = DECIDES.find((drum) => sheet.pairs.some((pair) => pair.drum === drum));
  const follows = decides
    ? microphones.filter(({ drum }) => drum === '').map((one) => ({ microphone: one.id, drum: decides }))
    : [];
  return { ...sheet, references, follows };
}
