/** Hi-hat, ride and crash of a groove: with each stroke of the drums, some milliseconds before or after it, and between them. */
import { CYMBAL_PLACE } from '../../../samples/model/barn';
import type { Point } from '../../../samples/model/room';
import type { CaseSource, Strike } from '../case';
import { Draw } from '../draw';
import { HI_HAT_PLACE, RIDE_PLACE } from '../instruments';
import { drawMetal, LEAD_SECONDS, metalSource } from '../strikes';
import { BAR, FORCE_DB, type Pattern } from './pattern';

/** a cymbal that is meant to come with a stroke lies at most so far from it, s */
export const TOGETHER_SECONDS = 0.01;
/** above that tempo (a sixteenth, s) one hand doesn't play sixteenths: 112 a minute */
const ONE_HAND_SECONDS = 60 / 112 / 4;

/** @param strokeAt the drum's main stroke at a step, s; undefined: none */
export type StrokeAt = (step: number) => number | undefined;

/** @param snareNoise level of the snare's noise at a main stroke, which the cymbals are about as loud as: see groove.ts */
export function cymbals(pattern: Pattern, strokeAt: StrokeAt, snareNoise: number, seed: number): CaseSource[] {
  if (pattern.plain) return [];
  const crash = crashSteps(pattern, new Draw(seed, 'groove crash steps'));
  const steady = rightHand(pattern, crash, strokeAt, new Draw(seed, 'groove right hand'));
  const washes = crash.size > 0 ? [crashSource(pattern, crash, strokeAt, new Draw(seed, 'groove crash'))] : [];
  return [...steady, ...washes].map((source) => {
    const strikes = source.strikes.map((one) => ({ ...one, force: snareNoise * one.force }));
    return { ...source, strikes };
  });
}

/** When a limb comes in, by habit and by chance. */
function together(pattern: Pattern, strokeAt: StrokeAt, draw: Draw): (step: number) => number {
  const habit = draw.between(-0.008, 0.008);
  const jitter = draw.between(5e-4, 3e-3);
  return (step) => {
    const off = Math.max(-TOGETHER_SECONDS, Math.min(TOGETHER_SECONDS, habit + jitter * draw.within()));
    return (strokeAt(step) ?? LEAD_SECONDS + step * pattern.sixteenthSeconds) + off;
  };
}

function rightHand(pattern: Pattern, crash: ReadonlySet<number>, strokeAt: StrokeAt, draw: Draw): CaseSource[] {
  const onRide = draw.chance(0.15);
  const offBeats = !onRide && draw.chance(0.08);
  const sixteenths = !onRide && draw.chance(0.4) && pattern.sixteenthSeconds >= ONE_HAND_SECONDS;
  const every = sixteenths ? 1 : offBeats ? 4 : 2;
  const first = offBeats ? 2 : 0;
  const steps = range(first, pattern.bars * BAR, every).filter((at) => !pattern.fillSteps.has(at) && !crash.has(at));
  // re the snare's noise, the accents. On a real kit's take, above 3 kHz and as overheads hear it, between 7 dB below the snare and 5 above it
  const levelDb = draw.between(-18, 0);
  const accentDb = draw.between(1, 6);
  const at = together(pattern, strokeAt, draw);
  const forceDb = draw.between(FORCE_DB.least, FORCE_DB.most);
  const hit = (step: number, place: Point): Strike => {
    const db = levelDb - (step % 4 === 0 || offBeats ? 0 : accentDb) + forceDb * draw.within();
    return { timeSeconds: at(step), force: 10 ** (db / 20), place };
  };
  if (!onRide) {
    const metal = drawMetal(false, draw);
    // half open it rings on
    if (draw.chance(0.2)) metal.decay60Seconds = draw.between(0.3, 0.7);
    const strikes = steps.map((step) => hit(step, HI_HAT_PLACE));
    return [metalSource('hi-hat', metal, strikes)];
  }
  const strikes = steps.map((step) => hit(step, RIDE_PLACE));
  const ride = metalSource('ride', drawMetal(true, draw), strikes);
  if (!draw.chance(0.5)) return [ride];
  // the foot closes the hi-hat on two and four
  const foot = range(4, pattern.bars * BAR, 8).map((step) => hit(step, HI_HAT_PLACE));
  return [ride, metalSource('hi-hat', drawMetal(false, draw), foot)];
}

/** After fills, and now and then on the first beat. */
function crashSteps({ bars, fillEnds }: Pattern, draw: Draw): Set<number> {
  const steps = new Set<number>();
  if (!draw.chance(0.45)) return steps;
  if (draw.chance(0.5)) steps.add(0);
  for (const end of fillEnds) if (end < bars * BAR && draw.chance(0.8)) steps.add(end);
  if (steps.size === 0) steps.add(BAR * Math.floor(draw.between(0, bars)));
  return steps;
}

function crashSource(pattern: Pattern, steps: ReadonlySet<number>, strokeAt: StrokeAt, draw: Draw): CaseSource {
  const levelDb = draw.between(-8, 4);
  const at = together(pattern, strokeAt, draw);
  const metal = {
    decay60Seconds: draw.between(1.5, 3),
    riseSeconds: draw.ratio(5e-4, 4e-3),
    shared: draw.between(0.2, 0.7),
  };
  const forceDb = draw.between(FORCE_DB.least, FORCE_DB.most);
  const strikes = [...steps].map((step): Strike => {
    return { timeSeconds: at(step), force: 10 ** ((levelDb + forceDb * draw.within()) / 20), place: CYMBAL_PLACE };
  });
  return metalSource('crash', metal, strikes);
}

function range(from: number, to: number, step: number): number[] {
  return Array.from({ length: Math.ceil((to - from) / step) }, (_, i) => from + i * step);
}
