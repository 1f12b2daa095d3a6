/** When what is struck: a player's hits on one drum, and other drums behind it. */
import type { Point } from '../../samples/model/room';
import type { CaseSource, Metal, Spread, Strike } from './case';
import type { Draw } from './draw';
import { drawInstrument, type Instrument, RIDE_PLACE } from './instruments';
import { facing, type StandingPair } from './places';

export const LEAD_SECONDS = 0.5;

export interface Player {
  scatterCm: number;
  forceDb: number;
  timingSeconds: number;
}

export function drawPlayer(draw: Draw): Player {
  return { scatterCm: draw.between(0.2, 2), forceDb: draw.between(0.7, 4), timingSeconds: draw.between(0.002, 0.015) };
}

export function strike(
  instrument: Instrument,
  timeSeconds: number,
  levelDb: number,
  player: Player,
  draw: Draw,
): Strike {
  const u = (player.scatterCm / 100) * draw.within();
  const v = (player.scatterCm / 100) * draw.within();
  const [x, y, z] = instrument.place;
  const place: Point = Math.abs(instrument.drum.axis[2]) > 0.9 ? [x + u, y + v, z] : [x + u, y, z + v];
  const forceDb = levelDb + player.forceDb * draw.within();
  return { timeSeconds: timeSeconds + player.timingSeconds * draw.within(), force: 10 ** (forceDb / 20), place };
}

/** One drum, hit after hit. */
export function steadyHits(instrument: Instrument, hits: number, spacing: number, draw: Draw): Strike[] {
  const player = drawPlayer(draw);
  return Array.from({ length: hits }, (_, i) => strike(instrument, LEAD_SECONDS + i * spacing, 0, player, draw));
}

/** Other drums, and metal, that both microphones hear somewhere between the hits, and now and then on them. */
export function behind(
  struck: Instrument,
  pair: StandingPair,
  seconds: number,
  levelDb: number,
  draw: Draw,
): CaseSource[] {
  const ids = (['snare', 'kick', 'floor tom', 'rack tom'] as const).filter((id) => id !== struck.id);
  const other = drawInstrument(draw.one(ids), draw);
  const player = drawPlayer(draw);
  const strikes: Strike[] = [];
  for (let t = 0.25; t < seconds - 0.6; t += draw.between(0.4, 1.8))
    strikes.push(strike(other, t, levelDb, player, draw));
  const sources = [drumSource({ ...other, id: `${other.id} behind` }, pair, strikes, draw)];
  if (draw.chance(0.5)) {
    const wash: Strike[] = [];
    for (let t = 0.1; t < seconds - 0.6; t += draw.between(0.3, 1.2)) {
      wash.push({ timeSeconds: t, force: 10 ** ((levelDb - draw.between(12, 22)) / 20), place: RIDE_PLACE });
    }
    sources.push(metalSource('ride', drawMetal(true, draw), wash));
  }
  return sources;
}

/** Every drum heard from the side that faces the microphone. */
export function drumSource(instrument: Instrument, pair: StandingPair, strikes: Strike[], draw: Draw): CaseSource {
  return {
    id: instrument.id,
    drum: instrument.drum,
    metal: null,
    ring: null,
    spread: drawSpread(draw),
    strikes,
    a: facing(instrument, pair.a.at),
    b: facing(instrument, pair.b.at),
  };
}

export function drawSpread(draw: Draw): Spread {
  // what a head radiates mostly rises from rest: in recordings half the peak is reached after 1–5 ms
  const turns = (): number[] => Array.from({ length: 9 }, () => draw.between(0.38, 0.5) * Math.PI);
  return {
    sharedDecay60Seconds: draw.ratio(0.006, 0.05),
    ownLevel: draw.ratio(0.5, 2.5),
    ownRiseSeconds: draw.ratio(7e-4, 4e-3),
    sharedWires: draw.between(0, 0.4),
    turnsA: turns(),
    turnsB: turns(),
  };
}

export function metalSource(id: string, metal: Metal, strikes: Strike[]): CaseSource {
  return { id, drum: null, metal, ring: null, spread: null, strikes, a: 'batter', b: 'batter' };
}

export function drawMetal(ringing: boolean, draw: Draw): Metal {
  return {
    decay60Seconds: ringing ? draw.between(0.8, 1.6) : draw.ratio(0.08, 0.3),
    riseSeconds: draw.ratio(1e-4, 1e-3),
    shared: draw.between(0.3, 0.8),
  };
}
