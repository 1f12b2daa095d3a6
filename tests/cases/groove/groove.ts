/**
 * A kit as it is played: kick and snare in bars, a cymbal with every stroke, ghost notes, flams, fills, toms that ring
 * along, a crash. Each ingredient comes by chance, so that grooves range from plain to busy. Every ingredient draws from a
 * stream of its own.
 */
import type { CaseSource } from '../case';
import { Draw } from '../draw';
import { drawInstrument, type Instrument } from '../instruments';
import type { StandingPair } from '../places';
import { drumSource, LEAD_SECONDS } from '../strikes';
import { cymbals } from './cymbals';
import { playDrum, type Struck } from './limbs';
import { BAR, drawPattern, type GrooveDrum } from './pattern';
import { ringing } from './ring';

const DRUMS: readonly GrooveDrum[] = ['kick', 'snare', 'rack tom', 'floor tom'];
const LEVEL_DB: Readonly<Record<GrooveDrum, readonly [number, number]>> = {
  kick: [-3, 6],
  snare: [-3, 3],
  'rack tom': [-4, 2],
  'floor tom': [-4, 2],
};

/** @param struck the drum that the pair stands for; it keeps the place that it was drawn with */
export function groove(
  struck: Instrument,
  pair: StandingPair,
  seed: number,
): { sources: CaseSource[]; seconds: number } {
  const pattern = drawPattern(seed);
  const instruments = new Map<GrooveDrum, Instrument>();
  const played = new Map<GrooveDrum, Struck>();
  const sources: CaseSource[] = [];
  let snareNoise = 1;
  for (const id of DRUMS) {
    const draw = new Draw(seed, `groove instrument ${id}`);
    const instrument = struck.id === id ? struck : drawInstrument(id, draw);
    const levelDb = draw.between(...LEVEL_DB[id]);
    instruments.set(id, instrument);
    const one = playDrum(id, instrument, pattern, levelDb, seed);
    if (one.strikes.length === 0) continue;
    played.set(id, one);
    const source = drumSource(instrument, pair, one.strikes, draw);
    if (id === 'snare') snareNoise = 10 ** (levelDb / 20) * noiseOf(source);
    sources.push(id === struck.id ? { ...source, a: pair.a.side, b: pair.b.side } : source);
  }
  const order = [struck.id as GrooveDrum, ...DRUMS];
  const strokeAt = (step: number): number | undefined => {
    for (const id of order) {
      const stroke = played.get(id)?.mainAt.get(step);
      if (stroke) return stroke.timeSeconds;
    }
    return undefined;
  };
  sources.push(...cymbals(pattern, strokeAt, snareNoise, seed));
  if (!pattern.plain) {
    const rousing = (['kick', 'snare'] as const).map((id) => ({
      instrument: instruments.get(id) as Instrument,
      strikes: played.get(id)?.strikes ?? [],
    }));
    for (const id of ['rack tom', 'floor tom'] as const)
      sources.push(...ringing(instruments.get(id) as Instrument, pair, rousing, seed));
  }
  return { sources, seconds: LEAD_SECONDS + pattern.bars * BAR * pattern.sixteenthSeconds + 0.6 };
}

/** What a medium stroke holds of noise, 1 m off: the stroke's that both microphones hear, each one's own, the wires'. */
function noiseOf({ drum, spread }: CaseSource): number {
  if (!(drum && spread)) return 0;
  const own = Math.max(drum.crack, 0.4 * drum.wires) * spread.ownLevel;
  return Math.hypot(drum.crack, own, 0.35 * drum.wires);
}
