/** Which drum each sound of a kit is: the one whose own microphone it is loudest in, and drums that have none. */
import { BAND_EDGES_HZ, BANDS } from '../scan/levelScan';
import { apart, type Shape, type Sound } from './sounds';

/** by so many dB a sound may be farther from a microphone than that microphone's own drum, and is still the same drum's, if it sounds so alike */
const SAME_CLOSE_DB = 4;
const SAME_ALIKE_DB = 5;
/** a sound that a drum's own microphone hears nearly as far above the others as the drum itself is that drum with another: dB */
const HEARD_IN_DB = 8;
const HEARD_CLOSE_DB = 10;
/** cymbals never sound the same twice */
const CYMBALS_ALIKE_DB = 9;

/** A track as far as it counts here. */
export interface Ear {
  /** the drum that its microphone is close to; empty: it hears the whole kit, or nobody knows */
  drum: string;
}

export interface KitDrum {
  /** as the tracks are called; of a drum without a microphone of its own: what it sounds like */
  name: string;
  /** numbers of the tracks whose microphones are close to it; empty: none is */
  own: number[];
  sounds: Sound[];
}

/** @returns the kit's drums, those with microphones of their own first, in the order of the tracks */
export function kitDrums(sounds: readonly Sound[], ears: readonly Ear[]): KitDrum[] {
  const left = new Set(sounds);
  const drums = withOwn(left, ears);
  for (const drum of drums) {
    const [main] = drum.sounds as [Sound];
    const close = closeness(main, drum.own);
    for (const sound of left) {
      const here = closeness(sound, drum.own);
      const alike = here > close - SAME_CLOSE_DB && apart(sound.shape, main.shape) < SAME_ALIKE_DB;
      if (alike) drum.sounds.push(sound);
      // struck at once with another, more often than alone: such moments are told by the two
      if (alike || here >= Math.max(HEARD_CLOSE_DB, close - HEARD_IN_DB)) left.delete(sound);
    }
  }
  return [...drums, ...named(withoutOwn([...left]))];
}

/** Each drum that a microphone is close to with the sound that it hears closest; who hears one closest of all has it first. Takes them out of `left`. */
function withOwn(left: Set<Sound>, ears: readonly Ear[]): KitDrum[] {
  const names = [...new Set(ears.map(({ drum }) => drum).filter((drum) => drum !== ''))];
  const waiting = names.map((name) => ({ name, own: ears.flatMap(({ drum }, t) => (drum === name ? [t] : [])) }));
  const drums = new Map<string, KitDrum>();
  while (drums.size < names.length && left.size > 0) {
    const pairs = waiting
      .filter(({ name }) => !drums.has(name))
      .flatMap((one) => [...left].map((sound) => ({ ...one, sound, close: closeness(sound, one.own) })));
    const { name, own, sound } = pairs.reduce((best, pair) => (pair.close > best.close ? pair : best));
    drums.set(name, { name, own, sounds: [sound] });
    left.delete(sound);
  }
  return names.flatMap((name) => drums.get(name) ?? []);
}

const closeness = ({ shape }: Sound, own: readonly number[]): number =>
  Math.max(...own.map((t) => closeTo(shape, t, own)));

/** By how much a track hears a sound louder than the other tracks do, each against its own loudest, dB. */
export function closeTo(shape: Shape, t: number, own: readonly number[]): number {
  const others = Array.from({ length: shape.length / BANDS }, (_, i) => i).filter((i) => !own.includes(i));
  if (others.length === 0) return 0;
  const levels = others.map((i) => levelIn(shape, i)).sort((p, q) => p - q);
  return levelIn(shape, t) - (levels[levels.length >> 1] as number);
}

/** dB over all bands */
export function levelIn(shape: Shape, t: number): number {
  let power = 0;
  for (let b = 0; b < BANDS; b++) {
    const level = shape[t * BANDS + b] as number;
    if (!Number.isNaN(level)) power += 10 ** (level / 10);
  }
  return 10 * Math.log10(power);
}

/** middle of the bands, Hz: below the lowest edge an octave lower, above the highest an octave higher */
const MIDDLES = Array.from({ length: BANDS }, (_, b) => {
  const from = BAND_EDGES_HZ[b - 1] ?? (BAND_EDGES_HZ[0] as number) / 4;
  const to = BAND_EDGES_HZ[b] ?? 4 * (BAND_EDGES_HZ[BANDS - 2] as number);
  return Math.sqrt(from * to);
});

/** Where the middle of a sound's energy lies, over all tracks, Hz. */
export function centreHz(shape: Shape): number {
  let power = 0;
  let octaves = 0;
  shape.forEach((level, i) => {
    if (Number.isNaN(level)) return;
    const p = 10 ** (level / 10);
    power += p;
    octaves += p * Math.log2(MIDDLES[i % BANDS] as number);
  });
  return 2 ** (octaves / power);
}

/** In most tracks its top is louder than its body; its low end may be what rang of a drum. */
function isCymbal(shape: Shape): boolean {
  const tilts = Array.from({ length: shape.length / BANDS }, (_, t) => {
    const of = (b: number): number => shape[t * BANDS + b] as number;
    return Math.max(of(3), of(4)) - Math.max(of(1), of(2));
  }).filter((tilt) => !Number.isNaN(tilt));
  tilts.sort((p, q) => p - q);
  return (tilts[tilts.length >> 1] ?? Number.NEGATIVE_INFINITY) > 0;
}

/** A track's level above 2 kHz re that below 500 Hz, dB. */
export function tiltDb(shape: Shape, t: number): number {
  const power = (b: number): number => {
    const level = shape[t * BANDS + b] as number;
    return Number.isNaN(level) ? 0 : 10 ** (level / 10);
  };
  return 10 * Math.log10((power(3) + power(4) + 1e-12) / (power(0) + power(1) + 1e-12));
}

const withoutLow = (shape: Shape): Shape => shape.map((level, i) => (i % BANDS === 0 ? Number.NaN : level));

/** Sounds that no microphone is close to; what cymbals make is one as long as it is roughly alike. */
function withoutOwn(sounds: readonly Sound[]): Sound[][] {
  const groups: Sound[][] = [];
  for (const sound of sounds) {
    const near = groups.find(
      ([first]) =>
        first &&
        isCymbal(first.shape) &&
        isCymbal(sound.shape) &&
        apart(withoutLow(first.shape), withoutLow(sound.shape)) < CYMBALS_ALIKE_DB,
    );
    if (near) near.push(sound);
    else groups.push([sound]);
  }
  return groups;
}

/** "Drum 2 (low)": nobody said what it is. */
function named(groups: readonly Sound[][]): KitDrum[] {
  const pitch = ([first]: Sound[]): number => centreHz((first as Sound).shape);
  const drums = groups.filter(([first]) => first && !isCymbal(first.shape)).sort((p, q) => pitch(q) - pitch(p));
  const cymbals = groups.filter(([first]) => first && isCymbal(first.shape));
  const numbered = (what: string, several: readonly Sound[][]): KitDrum[] =>
    several.map((sounds, i) => ({ name: several.length > 1 ? `${what} ${i + 1}` : what, own: [], sounds }));
  return [...numbered('unnamed drum', drums), ...numbered('cymbal', cymbals)];
}
