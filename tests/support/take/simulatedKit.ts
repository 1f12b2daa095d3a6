/**
 * A kit with fourteen microphones, drawn from a seed: where its drums and its microphones are, and who plays what. Plain data; `renderTake`
 * makes it sound, `truthOfTake` says what is true of it. Drums, microphones and players are those of the simulated cases; paths are
 * straight, so a shell or a body hides nothing.
 */
import type { Drum, Side } from '../../../samples/model/drum';
import type { Metal, Spread, Strike } from '../../cases/case';
import { Draw } from '../../cases/draw';
import type { Instrument } from '../../cases/instruments';
import { facing } from '../../cases/places';
import { drawMetal, drawPlayer, drawSpread, LEAD_SECONDS, strike } from '../../cases/strikes';
import { drawInstruments, drawMicrophones, HEAD_IDS, type HeadId, METALS, type TakeMicrophone } from './kitPlaces';
import { playGroove } from './simulatedGroove';

export const TAKE_RATE = 48000;

/** One of drum and metal. */
export interface TakeDrum {
  /** as a track that is called after it says */
  id: string;
  drum: Drum | null;
  metal: Metal | null;
  /** of a drum */
  spread: Spread | null;
  /** of a drum, at each microphone; see Drum.modeTurns */
  turns: number[][];
  strikes: Strike[];
  /** peak of a stroke of force 1, 1 m off, re full scale of nothing in particular, dB: what the drums of a kit are to each other */
  levelDb: number;
  /** of a drum, the side that each microphone is on */
  sides: Side[];
}

export interface SimulatedTake {
  seed: number;
  sampleRate: number;
  seconds: number;
  microphones: TakeMicrophone[];
  drums: TakeDrum[];
}

export interface TakeOptions {
  /** of each drum, struck one drum after the other; default 10 */
  hits: number;
  /** after them a groove with them all, some 15 s; default: none */
  groove: boolean;
}

const SPACING_SECONDS = { least: 0.4, most: 0.6 };
/** after a drum the next one is made ready for */
const PAUSE_SECONDS = 0.5;
const END_SECONDS = 1;
/** peaks 1 m off, re each other: common practice, no source */
const LEVEL_DB: Record<HeadId | keyof typeof METALS, number> = {
  kick: 0,
  snare: 2,
  'high tom': -2,
  'mid tom': -2,
  'floor tom': -1,
  'hi-hat': -10,
  ride: -10,
  crash: -2,
};
const LEVEL_SPREAD_DB = 3;
/** of the groove's cymbals, re the strokes that they are struck with: see `cymbals` */
const GROOVE_METAL = 2;

/** @param seed as a case's: see TUNING_SEEDS and QUOTED_SEEDS for which may be used for what */
export function drawTake(seed: number, options: Partial<TakeOptions> = {}): SimulatedTake {
  const { hits = 10, groove = false } = options;
  const instruments = drawInstruments(seed);
  const microphones = drawMicrophones(seed, instruments);
  const voices = HEAD_IDS.map((id) => ({ id, spread: drawSpread(new Draw(seed, `take voice ${id}`)) }));
  const level = (id: HeadId | keyof typeof METALS): number => {
    return LEVEL_DB[id] + LEVEL_SPREAD_DB * new Draw(seed, `take level ${id}`).between(-1, 1);
  };
  const played = playEach(seed, instruments, hits);
  let { seconds } = played;
  let crash: Metal | null = null;
  if (groove) {
    const more = playGroove(seed, instruments, GROOVE_METAL, seconds);
    for (const [id, strikes] of more.strikes) played.strikes.set(id, [...(played.strikes.get(id) ?? []), ...strikes]);
    seconds = more.seconds;
    crash = more.crash;
  }
  const heads = voices.map(({ id, spread }): TakeDrum => {
    const draw = new Draw(seed, `take turns ${id}`);
    const { drum } = instruments[id];
    const sides = microphones.map((microphone) => sideOf(id, instruments[id], microphone));
    const turns = microphones.map(() => [...drawSpread(draw).turnsA]);
    return { id, drum, metal: null, spread, turns, strikes: played.strikes.get(id) ?? [], levelDb: level(id), sides };
  });
  const metals = (Object.keys(METALS) as (keyof typeof METALS)[]).flatMap((id): TakeDrum[] => {
    const strikes = played.strikes.get(id) ?? [];
    const metal = id === 'crash' && crash ? crash : drawMetal(id !== 'hi-hat', new Draw(seed, `take metal ${id}`));
    if (strikes.length === 0) return [];
    return [{ id, drum: null, metal, spread: null, turns: [], strikes, levelDb: level(id), sides: [] }];
  });
  return { seed, sampleRate: TAKE_RATE, seconds: seconds + END_SECONDS, microphones, drums: [...heads, ...metals] };
}

/**
 * The side that a microphone hears a drum begin from. A kick's: the side of its head that it is on. Of an upright drum only the microphone
 * below it hears the other side first; what stands elsewhere, lower than its head too, hears the struck head round the hoop, before the
 * other head moves. So do a real kit's kick microphone and its toms (firm in ../shared/takes).
 */
function sideOf(id: HeadId, instrument: Instrument, { name, at }: TakeMicrophone): Side {
  if (id === 'kick') return name.endsWith('Kick In') ? 'inside' : facing(instrument, at);
  return id === 'snare' && name.endsWith('Snare Bottom') ? 'resonant' : 'batter';
}

/** One drum after the other, then the metals. */
function playEach(
  seed: number,
  instruments: Record<HeadId, Instrument>,
  hits: number,
): { strikes: Map<string, Strike[]>; seconds: number } {
  const strikes = new Map<string, Strike[]>();
  let seconds = LEAD_SECONDS;
  const turn = (id: string, at: (timeSeconds: number, draw: Draw) => Strike): void => {
    const draw = new Draw(seed, `take hits ${id}`);
    const spacing = draw.between(SPACING_SECONDS.least, SPACING_SECONDS.most);
    const own = Array.from({ length: hits }, (_, i) => at(seconds + i * spacing, draw));
    strikes.set(id, own);
    seconds += hits * spacing + PAUSE_SECONDS;
  };
  for (const id of HEAD_IDS) {
    const draw = new Draw(seed, `take player ${id}`);
    const player = drawPlayer(draw);
    turn(id, (at, own) => strike(instruments[id], at, 0, player, own));
  }
  for (const id of ['hi-hat', 'ride'] as const) {
    const draw = new Draw(seed, `take player ${id}`);
    const forceDb = draw.between(0.7, 3);
    const [x, y, z] = METALS[id];
    turn(id, (timeSeconds, own) => ({
      timeSeconds,
      force: 10 ** ((forceDb * own.within()) / 20),
      place: [x + 0.02 * own.within(), y + 0.02 * own.within(), z],
    }));
  }
  return { strikes, seconds };
}
