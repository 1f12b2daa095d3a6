/** A groove of the simulated cases played on the take's kit. */
import type { Metal, Strike } from '../../cases/case';
import { cymbals } from '../../cases/groove/cymbals';
import { playDrum } from '../../cases/groove/limbs';
import { BAR, drawPattern, type GrooveDrum } from '../../cases/groove/pattern';
import type { Instrument } from '../../cases/instruments';
import { LEAD_SECONDS } from '../../cases/strikes';
import { type HeadId, METALS } from './kitPlaces';

const PLAYED: Record<GrooveDrum, HeadId> = {
  kick: 'kick',
  snare: 'snare',
  'rack tom': 'high tom',
  'floor tom': 'floor tom',
};

/**
 * @param fromSeconds where it begins
 * @param snareNoise see `cymbals`
 * @returns strikes by drum, the crash's metal (null: none is struck) and where it ends
 */
export function playGroove(
  seed: number,
  instruments: Record<HeadId, Instrument>,
  snareNoise: number,
  fromSeconds: number,
): { strikes: Map<string, Strike[]>; crash: Metal | null; seconds: number } {
  const pattern = drawPattern(seed);
  const later = fromSeconds - LEAD_SECONDS;
  const strikes = new Map<string, Strike[]>();
  const mainAt = new Map<number, number>();
  for (const [drum, id] of Object.entries(PLAYED) as [GrooveDrum, HeadId][]) {
    const played = playDrum(drum, instruments[id], pattern, 0, seed);
    for (const [step, { timeSeconds }] of played.mainAt) if (!mainAt.has(step)) mainAt.set(step, timeSeconds);
    strikes.set(
      id,
      played.strikes.map((one) => ({ ...one, timeSeconds: one.timeSeconds + later })),
    );
  }
  let crash: Metal | null = null;
  for (const source of cymbals(pattern, (step) => mainAt.get(step), snareNoise, seed)) {
    const id = source.id as keyof typeof METALS;
    if (id === 'crash') crash = source.metal;
    const own = source.strikes.map((one) => ({ ...one, place: METALS[id], timeSeconds: one.timeSeconds + later }));
    strikes.set(id, own);
  }
  return { strikes, crash, seconds: fromSeconds + pattern.bars * BAR * pattern.sixteenthSeconds + 0.6 };
}
