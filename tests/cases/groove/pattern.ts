/** What a player plays: bars of sixteenths. How often each thing is done is common practice, no source. */
import { Draw } from '../draw';

export type GrooveDrum = 'kick' | 'snare' | 'rack tom' | 'floor tom';

export interface Note {
  drum: GrooveDrum;
  /** sixteenths since the beginning */
  step: number;
  /** dB re the drum's own main strokes */
  levelDb: number;
  kind: 'main' | 'ghost' | 'fill';
}

export interface Pattern {
  /** nothing but kick and snare, now and then a floor tom: no cymbal, nothing between the strokes, nothing that rings along */
  plain: boolean;
  sixteenthSeconds: number;
  bars: number;
  /** in order of time; one note of a drum at a step */
  notes: Note[];
  /** the steps at which both hands are on the drums */
  fillSteps: Set<number>;
  /** the first step after each fill */
  fillEnds: number[];
}

export const BAR = 16;
const LEAST_SECONDS = 8.5;
const LEAST_BARS = 4;

const KICKS: readonly (readonly number[])[] = [
  [0, 8],
  [0, 8, 10],
  [0, 6, 8],
  [0, 10],
  [0, 7, 10],
  [0, 3, 8, 11],
  [0, 2, 10],
];
const FOUR_TO_THE_FLOOR = [0, 4, 8, 12];
const SNARES: readonly (readonly number[])[] = [
  [4, 12],
  [4, 12],
  [4, 10, 12],
];
/** mostly the sixteenths between the eighths */
const GHOSTS = [3, 7, 9, 11, 15, 1, 5, 13, 6, 10, 14];
/** the end of a bar, sixteenth by sixteenth; null: a rest */
const FILLS: readonly (readonly (GrooveDrum | null)[])[] = [
  ['snare', 'snare', 'rack tom', 'floor tom'],
  ['rack tom', 'rack tom', 'floor tom', 'floor tom'],
  ['snare', null, 'rack tom', 'floor tom'],
  ['snare', 'snare', 'snare', 'snare', 'rack tom', 'rack tom', 'floor tom', 'floor tom'],
  ['snare', 'snare', 'rack tom', 'rack tom', 'floor tom', 'floor tom', 'floor tom', 'floor tom'],
  ['snare', null, 'snare', 'rack tom', null, 'rack tom', 'floor tom', 'floor tom'],
];

/** Softer than the main strokes by 12–25 dB, the player's own unevenness (FORCE_DB, twice) included. */
export const GHOST_DB = { least: -25, most: -12 } as const;
/** a stroke's force lies within ±20 % of what was meant: two deviations, dB */
export const FORCE_DB = { least: 0.25, most: 0.79 } as const;

export function drawPattern(seed: number): Pattern {
  const draw = new Draw(seed, 'groove');
  const plain = draw.chance(0.12);
  const sixteenthSeconds = 60 / draw.between(78, 140) / 4;
  const bars = Math.max(LEAST_BARS, Math.ceil(LEAST_SECONDS / (BAR * sixteenthSeconds)));
  const made: Pattern = { plain, sixteenthSeconds, bars, notes: [], fillSteps: new Set(), fillEnds: [] };
  const taken = new Set<string>();
  const add = (note: Note): void => {
    const key = `${note.drum} ${note.step}`;
    if (taken.has(key)) return;
    taken.add(key);
    made.notes.push(note);
  };
  if (!plain) addFills(made, add, new Draw(seed, 'groove fills'));
  addBeat(made, add, new Draw(seed, 'groove beat'));
  if (!plain) addGhosts(made, add, new Draw(seed, 'groove ghosts'));
  made.notes.sort((p, q) => p.step - q.step);
  return made;
}

type Add = (note: Note) => void;

/** Kick and snare; the second of two bars may have another kick; now and then a kick falls on a backbeat as well. */
function addBeat({ plain, bars, fillSteps }: Pattern, add: Add, draw: Draw): void {
  const kicks = [draw.one(KICKS), draw.one(KICKS)];
  if (!draw.chance(0.5)) kicks[1] = kicks[0] as readonly number[];
  if (draw.chance(0.1)) kicks.fill(FOUR_TO_THE_FLOOR);
  const snare = draw.one(SNARES);
  const withSnare = draw.chance(0.25) ? 0.25 : 0;
  const withTom = draw.chance(plain ? 0.35 : 0.2);
  for (let bar = 0; bar < bars; bar++) {
    const main = (drum: GrooveDrum, at: number): void => {
      const step = bar * BAR + at;
      if (drum === 'kick' || !fillSteps.has(step)) add({ drum, step, levelDb: 0, kind: 'main' });
    };
    for (const at of kicks[bar % 2] as readonly number[]) main('kick', at);
    for (const at of snare) {
      main('snare', at);
      if (!plain && draw.chance(withSnare)) main('kick', at);
    }
    if (withTom) main('floor tom', 14);
  }
}

function addGhosts({ notes, bars, fillSteps }: Pattern, add: Add, draw: Draw): void {
  if (!draw.chance(0.55)) return;
  const main = new Set(notes.filter(({ drum }) => drum === 'snare').map(({ step }) => step));
  const free = GHOSTS.filter((at) => !main.has(BAR + at));
  const places = new Set<number>();
  const wanted = draw.one([1, 2, 3, 4, 5]);
  while (places.size < wanted) places.add(draw.one(free));
  const room = 2 * FORCE_DB.most;
  const [softest, loudest] = [GHOST_DB.least + room, GHOST_DB.most - room];
  const usual = draw.between(softest, loudest);
  for (let bar = 0; bar < bars; bar++)
    for (const at of [...places].sort((p, q) => p - q)) {
      const step = bar * BAR + at;
      const levelDb = Math.max(softest, Math.min(loudest, usual + 2 * draw.within()));
      if (draw.chance(0.85) && !fillSteps.has(step)) add({ drum: 'snare', step, levelDb, kind: 'ghost' });
    }
}

/** At the end of every second or fourth bar. */
function addFills(made: Pattern, add: Add, draw: Draw): void {
  if (!draw.chance(0.4)) return;
  const every = draw.one([2, 4, 4]);
  for (let bar = every - 1; bar < made.bars; bar += every) {
    const fill = draw.one(FILLS);
    const end = (bar + 1) * BAR;
    made.fillEnds.push(end);
    fill.forEach((drum, i) => {
      const step = end - fill.length + i;
      made.fillSteps.add(step);
      if (drum !== null) add({ drum, step, levelDb: draw.between(-4, 2), kind: 'fill' });
    });
  }
}
