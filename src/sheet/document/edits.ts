/** Changes to a sheet: each gives a new one and leaves the old as it was, so any of them can be undone. */
import type { PairKindId } from '../../advice/plan/pairKinds';
import { type KitSheet, type Microphone, newMicrophone, newPair, type Pair, type Place } from './model';

/** A number that no id of the kind has yet. */
function freshId(prefix: string, taken: readonly { id: string }[]): string {
  const ids = new Set(taken.map(({ id }) => id));
  let n = taken.length + 1;
  while (ids.has(`${prefix}${n}`)) n++;
  return `${prefix}${n}`;
}

/** What is true of the whole kit. */
export function changeSheet(
  sheet: KitSheet,
  change: Partial<Pick<KitSheet, 'name' | 'note' | 'sampleRate' | 'temperatureC'>>,
): KitSheet {
  return { ...sheet, ...change };
}

/** A new microphone at the end, on the first free input. */
export function addMicrophone(sheet: KitSheet, label: string, drum = '', side = ''): KitSheet {
  const inputs = new Set(sheet.microphones.map(({ input }) => input));
  let input = 1;
  while (inputs.has(String(input))) input++;
  const one = newMicrophone(freshId('microphone-', sheet.microphones), label, drum, side, String(input));
  return { ...sheet, microphones: [...sheet.microphones, one] };
}

/** Whatever isn't named stays. An id that isn't there changes nothing. */
export function changeMicrophone(sheet: KitSheet, id: string, change: Partial<Omit<Microphone, 'id'>>): KitSheet {
  return { ...sheet, microphones: sheet.microphones.map((one) => (one.id === id ? { ...one, ...change } : one)) };
}

/** Its pairs go with it, readings and all, and what it was a reference for. */
export function removeMicrophone(sheet: KitSheet, id: string): KitSheet {
  return withoutLost({
    ...sheet,
    microphones: sheet.microphones.filter((one) => one.id !== id),
    pairs: sheet.pairs.filter(({ a, b }) => a !== id && b !== id),
  });
}

export function moveMicrophone(sheet: KitSheet, id: string, by: number): KitSheet {
  return { ...sheet, microphones: moved(sheet.microphones, id, by) };
}

/** A new pair at the end; the sheet itself where it would pair a microphone with itself or with one that isn't there. */
export function addPair(sheet: KitSheet, a: string, b: string, kind: PairKindId, drum: string): KitSheet {
  const there = (id: string): boolean => sheet.microphones.some((one) => one.id === id);
  if (a === b || !there(a) || !there(b)) return sheet;
  const references = sheet.references.some((one) => one.drum === drum)
    ? sheet.references
    : [...sheet.references, { drum, microphone: a }];
  return { ...sheet, pairs: [...sheet.pairs, newPair(freshId('pair-', sheet.pairs), a, b, kind, drum)], references };
}

/** Whatever isn't named stays. Other microphones or another drum make the readings worthless: they go. */
export function changePair(sheet: KitSheet, id: string, change: Partial<Omit<Pair, 'id'>>): KitSheet {
  const pairs = sheet.pairs.map((one): Pair => {
    if (one.id !== id) return one;
    const next = { ...one, ...change };
    if (next.a === next.b) return one;
    const same = next.a === one.a && next.b === one.b && next.drum === one.drum;
    return same ? next : { ...next, before: null, after: null, done: null, acceptedAt: null, checked: null };
  });
  return withoutLost({ ...sheet, pairs });
}

export function removePair(sheet: KitSheet, id: string): KitSheet {
  return withoutLost({ ...sheet, pairs: sheet.pairs.filter((one) => one.id !== id) });
}

/** Readings and what was done, as they are put away; the pair's microphones, kind and drum stay. */
export function recordPair(sheet: KitSheet, id: string, pair: Pair): KitSheet {
  return { ...sheet, pairs: sheet.pairs.map((one) => (one.id === id ? pair : one)) };
}

/** Where a microphone stands on the drawing. */
export const placeMicrophone = (sheet: KitSheet, id: string, at: Place): KitSheet =>
  changeMicrophone(sheet, id, { place: onPlan(at) });

/** Where a drum stands on the drawing; microphones of it that were put somewhere go along. @param from where it stood */
export function placeDrum(sheet: KitSheet, drum: string, from: Place, at: Place): KitSheet {
  const to = onPlan(at);
  const along = ({ x, y }: Place): Place => onPlan({ x: x + to.x - from.x, y: y + to.y - from.y });
  return {
    ...sheet,
    microphones: sheet.microphones.map((one) =>
      one.drum === drum && one.place ? { ...one, place: along(one.place) } : one,
    ),
    drumPlaces: [...sheet.drumPlaces.filter((one) => one.drum !== drum), { drum, place: to }],
  };
}

/** Everything where it usually stands. */
export const usualPlaces = (sheet: KitSheet): KitSheet => ({
  ...sheet,
  microphones: sheet.microphones.map((one) => ({ ...one, place: null })),
  drumPlaces: [],
});

/** Within the drawing, to a thousandth of it. */
function onPlan({ x, y }: Place): Place {
  const within = (value: number): number => Math.round(1000 * Math.min(1, Math.max(0, value))) / 1000;
  return { x: within(x), y: within(y) };
}

/** A pair for every two that a group still needs; what is there already isn't added again. */
export function addMissing(sheet: KitSheet, drum: string, missing: readonly (readonly [string, string])[]): KitSheet {
  return missing.reduce((next, [a, b]) => {
    const there = next.pairs.some(
      (one) => one.drum === drum && ((one.a === a && one.b === b) || (one.a === b && one.b === a)),
    );
    return there ? next : addPair(next, a, b, 'other', drum);
  }, sheet);
}

export function movePair(sheet: KitSheet, id: string, by: number): KitSheet {
  return { ...sheet, pairs: moved(sheet.pairs, id, by) };
}

/** The microphone that the drum's delays are told against. */
export function setReference(sheet: KitSheet, drum: string, microphone: string): KitSheet {
  return { ...sheet, references: [...sheet.references.filter((one) => one.drum !== drum), { drum, microphone }] };
}

/** Which drum decides about the microphone's switch; null: every drum it hears. */
export function setFollows(sheet: KitSheet, microphone: string, drum: string | null): KitSheet {
  const others = sheet.follows.filter((one) => one.microphone !== microphone);
  return { ...sheet, follows: drum === null ? others : [...others, { microphone, drum }] };
}

/** By so many places, at most to the end. */
function moved<T extends { id: string }>(list: readonly T[], id: string, by: number): T[] {
  const from = list.findIndex((one) => one.id === id);
  const rest = list.filter((one) => one.id !== id);
  if (from < 0) return rest;
  const to = Math.min(rest.length, Math.max(0, from + by));
  return rest.toSpliced(to, 0, list[from] as T);
}

/** References and choices of microphones and drums that are gone go too; a drum left without one gets its first pair's A. */
function withoutLost(sheet: KitSheet): KitSheet {
  const there = new Set(sheet.microphones.map(({ id }) => id));
  const drums = [...new Set(sheet.pairs.map(({ drum }) => drum))];
  const of = (drum: string): string =>
    sheet.references.find((one) => one.drum === drum && there.has(one.microphone))?.microphone ??
    (sheet.pairs.find((pair) => pair.drum === drum) as Pair).a;
  return {
    ...sheet,
    references: drums.map((drum) => ({ drum, microphone: of(drum) })),
    follows: sheet.follows.filter(({ microphone, drum }) => there.has(microphone) && drums.includes(drum)),
    drumPlaces: sheet.drumPlaces.filter(
      ({ drum }) => drums.includes(drum) || sheet.microphones.some((one) => one.drum === drum),
    ),
  };
}
