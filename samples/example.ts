/** The filled kit sheet of the demo kit's scenario: every figure in it is read from the scenes' audio by the engine. */
import type { SumLevels } from '../src/advice/plan/alternatives';
import { type PairKindId, pairKind } from '../src/advice/plan/pairKinds';
import { Engine } from '../src/dsp/engine';
import { readWav } from '../src/files/readWav';
import type { Reading } from '../src/reading/reading';
import { changeMicrophone } from '../src/sheet/document/edits';
import { writeSheet } from '../src/sheet/document/file';
import {
  isInverted,
  type KitSheet,
  type Later,
  newMicrophone,
  newPair,
  type Pair,
  type Taken,
} from '../src/sheet/document/model';
import { accepted, outcomeOf } from '../src/sheet/pair/outcome';
import { isPresent } from '../src/sheet/pair/pairPlan';
import { takenFrom } from '../src/sheet/pair/taken';
import { TEMPERATURE_C } from './model/scenes';

export const EXAMPLE_FILE = 'example-kit.json';

/** how often a scene's loop is heard */
const LOOPS = 3;
/** the afternoon of the scenario; a pair every four minutes */
const BEGINS = Date.UTC(2026, 4, 9, 13, 2);
const PAIR_MS = 4 * 60_000;
/** between the two readings of a pair that was inverted */
const INVERT_MS = 70_000;
const INITIALS = 'mv';

const MICROPHONES = [
  newMicrophone('kick-inside', 'Kick inside', 'kick', 'inside', '1'),
  newMicrophone('kick-outside', 'Kick outside', 'kick', 'front', '2'),
  newMicrophone('kick-beater', 'Kick beater side', 'kick', 'beater', '3'),
  newMicrophone('kick-cone', 'Kick cone', 'kick', 'front', '4'),
  newMicrophone('snare-top', 'Snare top', 'snare', 'top', '5'),
  newMicrophone('snare-top-2', 'Snare top 2', 'snare', 'top', '6'),
  newMicrophone('snare-bottom', 'Snare bottom', 'snare', 'bottom', '7'),
  newMicrophone('floor-tom', 'Floor tom', 'floor tom', 'top', '8'),
  newMicrophone('overhead-snare', 'Overhead, snare side', '', 'above', '9'),
  newMicrophone('overhead-kick', 'Overhead, kick side', '', 'above', '10'),
];

/** Scene, A, B, drum, and what was done: one inverted at its switch, or why it was left. */
const PAIRS: readonly { scene: string; a: string; b: string; drum: string; invert?: 'a' | 'b'; left?: string }[] = [
  { scene: 'kick-inside-outside', a: 'kick-inside', b: 'kick-outside', drum: 'kick' },
  { scene: 'kick-both-sides', a: 'kick-beater', b: 'kick-outside', drum: 'kick', invert: 'a' },
  { scene: 'kick-low-end-driver', a: 'kick-outside', b: 'kick-cone', drum: 'kick' },
  { scene: 'snare-top-bottom', a: 'snare-top', b: 'snare-bottom', drum: 'snare', invert: 'b' },
  {
    scene: 'snare-two-tops',
    a: 'snare-top',
    b: 'snare-top-2',
    drum: 'snare',
    left: 'grilles level, bright blend wanted',
  },
  {
    scene: 'kit-overheads',
    a: 'overhead-snare',
    b: 'overhead-kick',
    drum: 'snare',
    left: 'one each for snare and kick',
  },
  { scene: 'snare-overhead', a: 'snare-top', b: 'overhead-snare', drum: 'snare' },
  { scene: 'floor-tom-overhead', a: 'floor-tom', b: 'overhead-kick', drum: 'floor tom' },
];

interface SceneFacts {
  id: string;
  kind: string;
  file: string;
}

/**
 * The example's file.
 * @param wavOf the bytes of a scene's audio, by file name
 */
export function exampleSheet(scenes: readonly SceneFacts[], wavOf: (file: string) => Uint8Array): string {
  let sheet: KitSheet = {
    id: 'demo-kit',
    name: 'Rehearsal barn, spring session',
    note: 'The example kit, as it was measured',
    sampleRate: 48000,
    temperatureC: TEMPERATURE_C,
    microphones: MICROPHONES,
    pairs: [],
    references: [
      { drum: 'kick', microphone: 'kick-inside' },
      { drum: 'snare', microphone: 'snare-top' },
      { drum: 'floor tom', microphone: 'floor-tom' },
    ],
    follows: [
      { microphone: 'overhead-snare', drum: 'snare' },
      { microphone: 'overhead-kick', drum: 'snare' },
    ],
    drumPlaces: [],
  };
  for (const [i, plan] of PAIRS.entries()) {
    const scene = scenes.find(({ id }) => id === plan.scene);
    if (!scene) throw new Error(`no scene ${plan.scene}`);
    const kind = scene.kind as PairKindId;
    const engine = listenTo(wavOf(scene.file), kind);
    const at = BEGINS + i * PAIR_MS;
    const take = (reading: Reading, atMs: number): Taken => {
      const takenAt = new Date(atMs).toISOString();
      const switches = { aInverted: isInverted(sheet, plan.a), bInverted: isInverted(sheet, plan.b) };
      const given = { takenAt, run: takenAt, initials: INITIALS, temperatureC: TEMPERATURE_C, kind, shown: null };
      return rounded(takenFrom(reading, { ...given, ...switches, meterInvert: false, turned: false }));
    };
    const listen = (): Reading => {
      engine.setInvertB(isInverted(sheet, plan.a) !== isInverted(sheet, plan.b));
      return engine.reading();
    };
    const before = take(listen(), at);
    const turn = plan.invert ? plan[plan.invert] : null;
    if (turn !== null) sheet = changeMicrophone(sheet, turn, { inverted: !isInverted(sheet, turn) });
    const now = turn === null ? before : take(listen(), at + INVERT_MS);
    const outcome = outcomeOf(before, now, {
      later: plan.left === undefined ? laterOf(now) : null,
      left: plan.left ?? null,
    });
    const pair: Pair = newPair(plan.scene, plan.a, plan.b, kind, plan.drum);
    const done = accepted(pair, outcome, new Date(at + 2 * INVERT_MS).toISOString());
    sheet = { ...sheet, pairs: [...sheet.pairs, done] };
  }
  return writeSheet(sheet, new Date(BEGINS + (PAIRS.length + 1) * PAIR_MS).toISOString());
}

/** What is left of the plan is done in the mix; a move isn't, so nobody may leave one out without a word. */
function laterOf({ sure, plan }: Taken): Later | null {
  if (!sure || plan === null || isPresent(plan)) return null;
  if (plan.moveCm !== null) throw new Error('a move was recommended, and nobody made it');
  return { invertB: plan.invertB, delayMs: plan.delayMs };
}

/** An engine that has heard the scene. */
function listenTo(wav: Uint8Array, kind: PairKindId): Engine {
  const { sampleRate, frames, readInto } = bound(readWav(wav));
  const engine = new Engine(sampleRate, { maxLagMs: pairKind(kind).maxLagMs });
  const a = new Float32Array(frames);
  const b = new Float32Array(frames);
  readInto(0, 0, a);
  readInto(1, 0, b);
  for (let i = 0; i < LOOPS; i++) engine.push(a, b);
  engine.flush();
  return engine;
}

const bound = (wav: ReturnType<typeof readWav>) => ({
  sampleRate: wav.sampleRate,
  frames: wav.frames,
  readInto: wav.readInto.bind(wav),
});

/** Figures to what they can mean: the same on every machine. */
function rounded(taken: Taken): Taken {
  const cut = (x: number | null): number | null => (x === null ? null : Number(x.toPrecision(6)));
  const cutLevels = ({ lowDb, allDb, bandsDb }: SumLevels): SumLevels => ({
    lowDb: cut(lowDb),
    allDb: cut(allDb),
    bandsDb: bandsDb.map(cut),
  });
  return {
    ...taken,
    delayMs: cut(taken.delayMs),
    uncertaintyMs: cut(taken.uncertaintyMs),
    spreadMs: cut(taken.spreadMs),
    agreement: cut(taken.agreement),
    fullerDb: cut(taken.fullerDb),
    fullerLowHz: cut(taken.fullerLowHz),
    fullerHighHz: cut(taken.fullerHighHz),
    lowCoherency: cut(taken.lowCoherency),
    octaveCoherency: taken.octaveCoherency.map(cut),
    timings: taken.timings.map((one) => ({ ...one, asIs: cutLevels(one.asIs), inverted: cutLevels(one.inverted) })),
  };
}
