/** Where the drums and the microphones of a simulated take are, drawn from its seed. */
import type { Point, Room } from '../../../samples/model/room';
import type { CaseMicrophone } from '../../cases/case';
import { Draw } from '../../cases/draw';
import { drawInstrument, type Instrument, type InstrumentId } from '../../cases/instruments';
import { drawDriver, drawMicrophone, drawRoom } from '../../cases/microphones';
import { standPair } from '../../cases/places';

export interface TakeMicrophone extends CaseMicrophone {
  /** "01 Kick In" */
  name: string;
  /** what its cardioid points at; null: it hears alike all round */
  aim: Point | null;
}

/**
 * Middles of the heads, metres. The player sits at x 2.8, y 1.1 and looks along +y, where the rooms' microphones are. Tables of a kit's
 * usual measures, from memory.
 */
const HEADS = {
  kick: { of: 'kick', at: [3.0, 1.95, 0.3] },
  snare: { of: 'snare', at: [2.72, 1.65, 0.66] },
  'high tom': { of: 'rack tom', at: [2.84, 2.15, 0.88] },
  'mid tom': { of: 'rack tom', at: [3.2, 2.13, 0.86] },
  'floor tom': { of: 'floor tom', at: [3.5, 1.55, 0.62] },
} satisfies Record<string, { of: InstrumentId; at: Point }>;
export type HeadId = keyof typeof HEADS;
export const HEAD_IDS = Object.keys(HEADS) as HeadId[];
export const METALS = {
  'hi-hat': [2.3, 1.75, 0.9],
  ride: [3.72, 2.1, 1.05],
  crash: [2.45, 2.35, 1.25],
} satisfies Record<string, Point>;
/** the middle tom against the high one: larger, and a fourth lower */
const MID_TOM = { size: 1.1, pitch: 0.75 };
/** Toms are tuned apart, the next one down by a minor third at least: common practice, no source. Drawn one by one they may come out the other way round. */
const NEXT_TOM = 2 ** (-3 / 12);

export function drawInstruments(seed: number): Record<HeadId, Instrument> {
  const drums = drawEach(seed);
  const tuned = (id: HeadId, above: HeadId): void => {
    const { drum } = drums[id];
    const pitch = Math.min(1, (NEXT_TOM * drums[above].drum.lowestHz) / drum.lowestHz);
    drums[id] = {
      ...drums[id],
      drum: { ...drum, lowestHz: pitch * drum.lowestHz, opposedHz: pitch * drum.opposedHz },
    };
  };
  tuned('mid tom', 'high tom');
  tuned('floor tom', 'mid tom');
  return drums;
}

function drawEach(seed: number): Record<HeadId, Instrument> {
  const drawn = HEAD_IDS.map((id): [HeadId, Instrument] => {
    const { of, at } = HEADS[id];
    const { drum, place } = drawInstrument(of, new Draw(seed, `take drum ${id}`));
    const moved = place.map((x, i) => x - drum.head[i] + at[i]) as unknown as Point;
    const { size, pitch } = id === 'mid tom' ? MID_TOM : { size: 1, pitch: 1 };
    const sized = {
      ...drum,
      head: at,
      radiusM: size * drum.radiusM,
      depthM: size * drum.depthM,
      lowestHz: pitch * drum.lowestHz,
      opposedHz: pitch * drum.opposedHz,
    };
    return [id, { id, drum: sized, place: moved }];
  });
  return Object.fromEntries(drawn) as Record<HeadId, Instrument>;
}

interface Stand {
  name: string;
  at: Point;
  aim: Point | null;
  /** false: within a shell */
  inRoom?: boolean;
  driver?: boolean;
}

export function drawMicrophones(seed: number, drums: Record<HeadId, Instrument>): TakeMicrophone[] {
  const draw = new Draw(seed, 'take microphones');
  const room = drawRoom('clean', draw);
  const humHz = draw.one([50, 60]);
  const rooms: Room = { ...room, tailDb: room.tailDb + 6 };
  return stands(drums, draw).map(({ name, at, aim, inRoom = true, driver = false }, i) => {
    const own = new Draw(seed, `take microphone ${name}`);
    const options = { group: 'clean', worse: false, room: name.startsWith('Room') ? rooms : room, humHz } as const;
    const made = drawMicrophone(at, { ...options, room: inRoom ? options.room : null }, own);
    const number = String(i + 1).padStart(2, '0');
    return { ...made, driver: driver ? drawDriver(own) : null, name: `${number} ${name}`, aim };
  });
}

/** The kick's inner microphone and its outer one are before the head that is struck, as all that are on its far side. */
function stands(drums: Record<HeadId, Instrument>, draw: Draw): Stand[] {
  const near = ([x, y, z]: Point, spread: number): Point => {
    const off = (): number => draw.between(-spread, spread);
    return [x + off(), y + off(), z + off()];
  };
  const kick = standPair('inside-outside', drums.kick, draw);
  const snare = standPair('top-bottom', drums.snare, draw);
  const driver = standPair('low-end-driver', drums.kick, draw);
  const tom = (name: string, id: HeadId): Stand => {
    return { name, at: standPair('same-side', drums[id], draw).a.at, aim: drums[id].place };
  };
  const over = (at: Point): Point => [at[0], at[1], 0];
  const metal = (name: string, [x, y, z]: Point): Stand => {
    return { name, at: near([x + 0.06, y + 0.05, z + 0.12], 0.03), aim: [x, y, z] };
  };
  const left = near([2.6, 1.5, 1.75], 0.15);
  const right = near([3.45, 1.5, 1.75], 0.15);
  return [
    { name: 'Kick In', at: kick.a.at, aim: drums.kick.place, inRoom: false },
    { name: 'Kick Out', at: kick.b.at, aim: drums.kick.place },
    { name: 'Snare Top', at: snare.a.at, aim: drums.snare.place },
    { name: 'Snare Bottom', at: snare.b.at, aim: drums.snare.place },
    tom('High Tom', 'high tom'),
    tom('Mid Tom', 'mid tom'),
    tom('Floor Tom', 'floor tom'),
    metal('Hi-Hat', METALS['hi-hat']),
    metal('Ride', METALS.ride),
    { name: 'Overhead Left', at: left, aim: over(left) },
    { name: 'Overhead Right', at: right, aim: over(right) },
    { name: 'Room Left', at: near([1.5, 4.3, 1.7], 0.4), aim: null },
    { name: 'Room Right', at: near([4.9, 4.3, 1.7], 0.4), aim: null },
    { name: 'Kick Driver', at: driver.b.at, aim: null, driver: true },
  ];
}
