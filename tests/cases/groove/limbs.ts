/** A player's hands and feet: when a note is really struck, how hard, where; and flams. */
import type { Strike } from '../case';
import { Draw } from '../draw';
import type { Instrument } from '../instruments';
import { LEAD_SECONDS, type Player, strike } from '../strikes';
import { FORCE_DB, type GrooveDrum, type Note, type Pattern } from './pattern';

/** of a grace stroke before its main one, s */
export const FLAM_SECONDS = { least: 0.015, most: 0.04 } as const;

/** A drum's strokes: the main one of each note by its step, and all of them in order of time. */
export interface Struck {
  mainAt: Map<number, Strike>;
  strikes: Strike[];
}

/** Early or late by a player's habit and by chance, at most 20 ms: 20 % of the shortest sixteenth. */
export function playDrum(
  drum: GrooveDrum,
  instrument: Instrument,
  pattern: Pattern,
  levelDb: number,
  seed: number,
): Struck {
  const draw = new Draw(seed, `groove ${drum}`);
  const player: Player = {
    scatterCm: draw.between(0.2, 2),
    forceDb: draw.between(FORCE_DB.least, FORCE_DB.most),
    timingSeconds: draw.between(0.002, 0.006),
  };
  const habitSeconds = draw.between(-0.006, 0.008);
  const mainAt = new Map<number, Strike>();
  for (const note of pattern.notes) {
    if (note.drum !== drum) continue;
    const seconds = LEAD_SECONDS + note.step * pattern.sixteenthSeconds + habitSeconds;
    mainAt.set(note.step, strike(instrument, seconds, levelDb + note.levelDb, player, draw));
  }
  const strikes = [...mainAt.values()];
  if (drum === 'snare' && !pattern.plain) {
    strikes.push(...flams(instrument, pattern, mainAt, levelDb, player, new Draw(seed, 'groove flams')));
    strikes.sort((p, q) => p.timeSeconds - q.timeSeconds);
  }
  return { mainAt, strikes };
}

/** Grace strokes, by the other hand, before some of the main ones; not right after a stroke, which keeps that hand busy. */
function flams(
  instrument: Instrument,
  { notes }: Pattern,
  mainAt: ReadonlyMap<number, Strike>,
  levelDb: number,
  player: Player,
  draw: Draw,
): Strike[] {
  if (!draw.chance(0.2)) return [];
  const often = draw.between(0.1, 0.5);
  const wanted = (note: Note): boolean => note.drum === 'snare' && note.kind === 'main' && draw.chance(often);
  return notes.filter(wanted).flatMap(({ step }): Strike[] => {
    if (mainAt.has(step - 1)) return [];
    const grace = strike(instrument, 0, levelDb - draw.between(5, 14), player, draw);
    const before = draw.between(FLAM_SECONDS.least, FLAM_SECONDS.most);
    return [{ ...grace, timeSeconds: (mainAt.get(step) as Strike).timeSeconds - before }];
  });
}
