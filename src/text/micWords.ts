/** What people write into file names, channel names and labels: which drum, and where on it the microphone stands. English, and the usual abbreviations. */

/** As written; what it means depends on the drum ("reso" is a kick's front, a snare's bottom). */
export type Place =
  | 'top'
  | 'bottom'
  | 'inside'
  | 'outside'
  | 'front'
  | 'beater'
  | 'batter'
  | 'reso'
  | 'shell'
  | 'overhead'
  | 'room'
  | 'driver';

export type Mark =
  /** `number`: of several alike ("tom 2"); empty: none */
  | { drum: string; number: string }
  /** `several`: more than one of these ("overheads") */
  | { place: Place; number: string; several: boolean }
  | { side: 'left' | 'right' };

const DRUMS: Readonly<Record<string, readonly string[]>> = {
  snare: ['snare', 'snares', 'sn', 'snr', 'sd', 'snaredrum'],
  kick: ['kick', 'kik', 'kck', 'kd', 'bd', 'bassdrum', 'kickdrum'],
  tom: ['tom', 'toms'],
  'rack tom': ['rack', 'racktom'],
  'high tom': ['hightom', 'ht'],
  'mid tom': ['midtom', 'mt'],
  'low tom': ['lowtom'],
  'floor tom': ['floor', 'floortom', 'flr', 'flrtom', 'ft'],
  'hi-hat': ['hh', 'hat', 'hats', 'hihat', 'hihats'],
  ride: ['ride'],
  crash: ['crash'],
};

const PLACES: Readonly<Record<Place, readonly string[]>> = {
  top: ['top', 'tp', 'upper'],
  bottom: ['bottom', 'btm', 'bttm', 'bot', 'bott', 'under', 'underneath', 'below', 'lower'],
  inside: ['in', 'inside', 'inner'],
  outside: ['out', 'outside', 'outer'],
  front: ['front', 'frnt'],
  beater: ['beater', 'pedal'],
  batter: ['batter', 'batt'],
  reso: ['reso', 'resonant'],
  shell: ['shell', 'side'],
  overhead: ['oh', 'ovh', 'ohd', 'overhead'],
  room: ['room', 'rm', 'amb', 'ambient', 'ambience'],
  driver: ['sub', 'driver', 'woofer', 'speaker'],
};
const SEVERAL: Readonly<Record<string, Place>> = {
  tops: 'top',
  ohs: 'overhead',
  overheads: 'overhead',
  ovhs: 'overhead',
  rooms: 'room',
  rms: 'room',
};
const SIDES: Readonly<Record<string, 'left' | 'right'>> = { left: 'left', l: 'left', right: 'right', r: 'right' };

/** Words that belong together. */
const PHRASES: readonly (readonly [RegExp, string])[] = [
  [/\b(?:bass|kick) drum\b/g, 'kick'],
  [/\bsnare drum\b/g, 'snare'],
  [/\b(?:hi|high) hats?\b/g, 'hihat'],
  [/\bover (heads?)\b/g, 'over$1'],
  [/\b(?:hi|high) tom\b/g, 'hightom'],
  [/\b(?:mid|middle) tom\b/g, 'midtom'],
  [/\b(?:lo|low) tom\b/g, 'lowtom'],
  [/\brack tom\b/g, 'racktom'],
  [/\b(?:floor|flr|fl) tom\b/g, 'floortom'],
  [/\blow end driver\b/g, 'driver'],
  [/\bboth sides\b/g, 'beater front'],
  [/\b(beater|batter|reso|front|top|bottom) side\b/g, '$1'],
];

type Word = { drum: string } | { place: Place; several: boolean } | { side: 'left' | 'right' };

const WORDS = new Map<string, Word>([
  ...Object.entries(DRUMS).flatMap(([drum, words]) => words.map((word): [string, Word] => [word, { drum }])),
  ...Object.entries(PLACES).flatMap(([place, words]) =>
    words.map((word): [string, Word] => [word, { place: place as Place, several: false }]),
  ),
  ...Object.entries(SEVERAL).map(([word, place]): [string, Word] => [word, { place, several: true }]),
  ...Object.entries(SIDES).map(([word, side]): [string, Word] => [word, { side }]),
]);

/** "03_SnareTop-01.wav" → "03 snare top 01" */
export function plainWords(name: string): string {
  const spaced = name
    .normalize('NFKC')
    .replace(/\.(?:wave?|flac|aiff?|bwf|mp3|ogg|m4a|rf64)$/i, '')
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .replace(/(\p{L})(\p{N})/gu, '$1 $2')
    .replace(/(\p{N})(\p{L})/gu, '$1 $2')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
    .toLowerCase();
  return PHRASES.reduce((text, [pattern, word]) => text.replace(pattern, word), spaced);
}

/** Drums, places and sides in the order in which they are named; whatever else is written says nothing. */
export function marksOf(name: string): Mark[] {
  const tokens = plainWords(name)
    .split(' ')
    .flatMap((token) => unglued(token) ?? [token]);
  return tokens.flatMap((token, i): Mark[] => {
    const word = WORDS.get(token);
    if (word === undefined) return [];
    const next = tokens[i + 1] ?? '';
    const number = /^\d{1,2}$/.test(next) ? String(Number(next)) : '';
    return 'side' in word ? [word] : [{ ...word, number }];
  });
}

/** "sntop" → "sn", "top"; a single letter only behind an overhead or a room ("ohl"). Null: it isn't made of such words. */
function unglued(token: string): string[] | null {
  if (WORDS.has(token)) return [token];
  for (let cut = 2; cut < token.length; cut++) {
    const head = WORDS.get(token.slice(0, cut));
    if (head === undefined) continue;
    const rest = token.slice(cut);
    const lone = /^[lr]{1,2}$/.test(rest);
    if (lone && !('place' in head && (head.place === 'overhead' || head.place === 'room'))) continue;
    const tail = lone ? rest.split('') : unglued(rest);
    if (tail) return [token.slice(0, cut), ...tail];
  }
  return null;
}
