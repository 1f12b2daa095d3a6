/** A case of the simulated kit with things tried on it: B delayed alone, and the whole scene rendered again with B really moved. */
import { distance, type Point } from '../../../samples/model/room';
import { MOST_MOVE_CM, MOST_TRIM_DB, type Tried } from '../../../src/advice/tryOut/tried';
import type { CaseGroup, CaseMicrophone, KitCase } from '../../cases/case';
import { Draw } from '../../cases/draw';
import { drawCase } from '../../cases/drawCase';
import { renderCase } from '../../cases/renderCase';
import { truthOf } from '../../cases/truth';
import { AddedUp } from '../../support/sound/addedUp';
import { bandsOf, type Heard, hear, type TriedBand, toldOf, tryInRecording } from './tryTrial';

export interface TryJob {
  seed: number;
}
export interface TryResult {
  group: CaseGroup;
  /** there is no pair to be tried: an input is dead, both carry one signal, or the two have nothing in common */
  none: boolean;
  answers: boolean;
  delayed: TriedBand[];
  moved: TriedBand[];
}

const TRIES = 4;
/** B stays so far from what is struck, cm */
const LEAST_DISTANCE_CM = 2;

/** Half of them at equal level, half trimmed. */
const drawTries = (draw: Draw, mostCm: number): Tried[] =>
  Array.from({ length: TRIES }, (_, i) => ({
    invertB: draw.chance(0.5),
    delayMs: null,
    moveCm: Math.round(draw.between(-MOST_MOVE_CM, mostCm) * 10) / 10,
    trimDb: i % 2 === 0 ? 0 : Math.round(draw.between(-MOST_TRIM_DB, MOST_TRIM_DB) * 2) / 2,
  }));

export function runTryJob({ seed }: TryJob): TryResult {
  const made = drawCase(seed);
  const none = made.noAnswer !== null && made.noAnswer !== 'low end only';
  const sound = renderCase(made);
  const [asked] = truthOf({ ...made, noAnswer: null }).filter(({ id }) => id === made.asked);
  const otherwise = (asked?.hits ?? []).map(({ timeSeconds }) => timeSeconds);
  const heard = hear(sound, made.kind, otherwise);
  const draw = new Draw(seed, 'tries');
  const delayed = tryInRecording(sound, heard, drawTries(draw, MOST_MOVE_CM));
  return {
    group: made.group,
    none,
    answers: heard.answers,
    delayed,
    moved: none ? [] : reallyMoved(made, heard, draw),
  };
}

/** The scene once more, with B moved along its line to the place struck. */
function reallyMoved(made: KitCase, heard: Heard, draw: Draw): TriedBand[] {
  const source = made.sources.find(({ id }) => id === made.asked);
  const struck = source?.strikes[0]?.place;
  if (!heard.answers || heard.times.length === 0 || struck === undefined) return [];
  const fromCm = 100 * distance(made.b.move?.to ?? made.b.at, struck);
  const [tried] = drawTries(draw, Math.min(MOST_MOVE_CM, fromCm - LEAST_DISTANCE_CM)) as [Tried];
  const b = movedBy(made.b, struck, (tried.moveCm as number) / 100);
  const { a: x, b: y, sampleRate } = renderCase({ ...made, b });
  const added = new AddedUp(x, y, sampleRate, heard.times);
  const named = bandsOf(heard.reading);
  const bands = named.map(({ band }) => band);
  const levels = added.levelsDb(bands, { invertB: tried.invertB, delayMs: 0 });
  const told = toldOf(heard, tried);
  return named.map(
    ({ name, band }, i): TriedBand => ({
      band: name,
      coherence: added.coherence(band),
      trueDb: levels[i] as number,
      toldDb: told[i]?.toldDb ?? null,
      deep: told[i]?.deep ?? false,
    }),
  );
}

/** B so many metres towards the place struck, wherever it stands. */
function movedBy(b: CaseMicrophone, struck: Point, metres: number): CaseMicrophone {
  const stands = b.move?.to ?? b.at;
  const share = metres / distance(stands, struck);
  const step = [0, 1, 2].map((i) => share * ((struck[i] as number) - (stands[i] as number)));
  const after = (at: Point): Point => [0, 1, 2].map((i) => (at[i] as number) + (step[i] as number)) as unknown as Point;
  return { ...b, at: after(b.at), move: b.move && { ...b.move, to: after(b.move.to) } };
}
