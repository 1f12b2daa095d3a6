/** Where microphones stand, by pair kind; metres. The side is the side of the struck drum that a microphone is on. */
import { capsule } from '../../samples/model/barn';
import type { Side } from '../../samples/model/drum';
import { distance, dot, minus, type Point } from '../../samples/model/room';
import type { PairKindId } from '../../src/advice/plan/pairKinds';
import type { Draw } from './draw';
import type { Instrument, InstrumentId } from './instruments';

export interface Standing {
  at: Point;
  side: Side;
}
export interface StandingPair {
  a: Standing;
  b: Standing;
}

/** Which drums a kind is drawn for. */
export const DRUMS_OF: Record<PairKindId, readonly InstrumentId[]> = {
  'same-side': ['snare', 'rack tom', 'floor tom'],
  'top-bottom': ['snare', 'rack tom', 'floor tom'],
  'inside-outside': ['kick'],
  'both-sides-kick': ['kick'],
  'shell-other': ['snare', 'floor tom'],
  'close-overhead': ['snare', 'snare', 'rack tom', 'floor tom', 'kick'],
  'two-overheads': ['snare', 'rack tom', 'floor tom', 'kick'],
  'close-room': ['snare', 'kick', 'floor tom'],
  'low-end-driver': ['kick', 'kick', 'floor tom'],
  other: ['snare', 'floor tom'],
};

/** The side of a drum that faces a point. */
export function facing(instrument: Instrument, at: Point): Side {
  return dot(minus(at, instrument.drum.head), instrument.drum.axis) > 0 ? 'resonant' : 'batter';
}

function onBatter({ id, place }: Instrument, draw: Draw): Standing {
  const turn = draw.between(0, 2 * Math.PI);
  if (id === 'kick') {
    const direction: Point = [draw.sign() * draw.between(0.4, 1), -draw.between(0.4, 0.9), draw.between(-0.2, 0.4)];
    return { at: capsule(place, direction, draw.between(12, 40)), side: 'batter' };
  }
  const direction: Point = [Math.cos(turn), Math.sin(turn), draw.between(0.3, 1.1)];
  return { at: capsule(place, direction, draw.between(7, 22)), side: 'batter' };
}

function onResonant({ id, drum }: Instrument, draw: Draw): Standing {
  const [x, y, z] = drum.head;
  const across = 0.6 * drum.radiusM;
  const p = draw.between(-across, across);
  const q = draw.between(-across, across);
  const beyond = drum.depthM + (id === 'kick' ? draw.between(0.03, 0.3) : draw.between(0.03, 0.15));
  return { at: id === 'kick' ? [x + p, y + beyond, z + q] : [x + p, y + q, z - beyond], side: 'resonant' };
}

function inKick({ place }: Instrument, draw: Draw): Standing {
  const direction: Point = [draw.between(-0.4, 0.4), 1, draw.between(-0.3, 0.5)];
  return { at: capsule(place, direction, draw.between(8, 34)), side: 'inside' };
}

function atShell({ drum }: Instrument, draw: Draw): Standing {
  const turn = draw.between(0, 2 * Math.PI);
  const out = drum.radiusM + draw.between(0.03, 0.1);
  const [x, y, z] = drum.head;
  const at: Point = [x + out * Math.cos(turn), y + out * Math.sin(turn), z - draw.between(0.2, 0.8) * drum.depthM];
  return { at, side: draw.chance(0.5) ? 'batter' : 'resonant' };
}

/** Depth of the place, on one side of the kick's head or the other, so that its side is never in doubt. */
const depthRange = (draw: Draw): readonly [number, number] => (draw.chance(0.5) ? [2.35, 2.9] : [1.4, 2.05]);

function overheads(instrument: Instrument, draw: Draw): StandingPair {
  const [near, far] = depthRange(draw);
  const a: Point = [draw.between(1.7, 2.4), draw.between(near, far), draw.between(1.45, 2)];
  let b: Point;
  if (draw.chance(0.35)) {
    // capsules as close as two housings allow
    b = capsule(a, [draw.between(-1, 1), 0.3 * draw.between(-1, 1), draw.between(-0.5, 0.5)], draw.between(3, 20));
  } else b = [draw.between(2.8, 3.7), draw.between(near, far), draw.between(1.45, 2)];
  const swap = draw.chance(0.5);
  const pair = [a, b].map((at) => ({ at, side: facing(instrument, at) }));
  return { a: pair[swap ? 1 : 0] as Standing, b: pair[swap ? 0 : 1] as Standing };
}

function overhead(instrument: Instrument, draw: Draw): Standing {
  const [near, far] = depthRange(draw);
  const at: Point = [draw.between(1.8, 3.4), draw.between(near, far), draw.between(1.45, 2)];
  return { at, side: facing(instrument, at) };
}

function inRoom(instrument: Instrument, draw: Draw): Standing {
  const front = draw.chance(0.5);
  const at: Point = [
    draw.between(4.6, 6.8),
    front ? draw.between(2.6, 5) : draw.between(0.4, 1.9),
    draw.between(0.7, 2.3),
  ];
  return { at, side: facing(instrument, at) };
}

/** Two on one side, 3 cm apart at least, as housings are. */
function sameSide(instrument: Instrument, draw: Draw): StandingPair {
  for (;;) {
    const a = onBatter(instrument, draw);
    const b = onBatter(instrument, draw);
    if (distance(a.at, b.at) >= 0.03) return { a, b };
  }
}

export function standPair(kind: PairKindId, instrument: Instrument, draw: Draw): StandingPair {
  const kick = instrument.id === 'kick';
  switch (kind) {
    case 'same-side':
    case 'other':
      return sameSide(instrument, draw);
    case 'top-bottom':
      return { a: onBatter(instrument, draw), b: onResonant(instrument, draw) };
    case 'inside-outside':
      return { a: inKick(instrument, draw), b: onResonant(instrument, draw) };
    case 'both-sides-kick':
      return { a: onBatter(instrument, draw), b: onResonant(instrument, draw) };
    case 'shell-other':
      return { a: onBatter(instrument, draw), b: atShell(instrument, draw) };
    case 'close-overhead':
      return { a: kick ? onResonant(instrument, draw) : onBatter(instrument, draw), b: overhead(instrument, draw) };
    case 'two-overheads':
      return overheads(instrument, draw);
    case 'close-room':
      return { a: kick ? onResonant(instrument, draw) : onBatter(instrument, draw), b: inRoom(instrument, draw) };
    case 'low-end-driver':
      return {
        a: kick && draw.chance(0.5) ? inKick(instrument, draw) : onBatter(instrument, draw),
        b: onResonant(instrument, draw),
      };
  }
}
