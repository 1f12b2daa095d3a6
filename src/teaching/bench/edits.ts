/** What can be done on the bench. Each gives a new bench; what can't be done gives the same one back. */
import { DRUMS, nearestPlace } from './drums';
import {
  type Bench,
  type BenchMic,
  BODY_MOST_CM,
  type DrumId,
  type HitId,
  MIX_DELAY_MOST_MS,
  type MicId,
  type Spot,
  TEMPERATURES_C,
} from './model';

const withMic = (bench: Bench, mic: MicId, change: Partial<BenchMic>): Bench => ({
  ...bench,
  [mic]: { ...bench[mic], ...change },
});

/** To a millimetre, as near as a mic can stand. */
export function moveMic(bench: Bench, mic: MicId, to: Spot): Bench {
  const { xCm, yCm } = nearestPlace(bench.drum, to);
  return withMic(bench, mic, { grille: { xCm: toMm(xCm), yCm: toMm(yCm) } });
}

/** An arrow key: over a head, where a step would end in the drum, it goes on to the far side. */
export function stepMic(bench: Bench, mic: MicId, step: Spot): Bench {
  const { grille } = bench[mic];
  const to = { xCm: grille.xCm + step.xCm, yCm: grille.yCm + step.yCm };
  const moved = moveMic(bench, mic, to);
  const stuck = moved[mic].grille.xCm === grille.xCm && moved[mic].grille.yCm === grille.yCm;
  const across = stuck ? acrossTheDrum(bench, mic, step) : null;
  return across ? withMic(bench, mic, { grille: across }) : moved;
}

/** The first place beyond what is in the way, in the direction of the step. */
function acrossTheDrum(bench: Bench, mic: MicId, step: Spot): Spot | null {
  const { grille } = bench[mic];
  const [dx, dy] = [Math.sign(step.xCm), Math.sign(step.yCm)];
  for (const { leftCm, rightCm, bottomCm, topCm } of DRUMS[bench.drum].rooms) {
    const beside = grille.yCm >= bottomCm && grille.yCm <= topCm;
    const above = grille.xCm >= leftCm && grille.xCm <= rightCm;
    const edge = dx > 0 ? leftCm : dx < 0 ? rightCm : dy > 0 ? bottomCm : topCm;
    const from = dx !== 0 ? grille.xCm : grille.yCm;
    if ((dx !== 0 ? beside : above) && (edge - from) * (dx || dy) > 0)
      return dx !== 0 ? { xCm: edge, yCm: grille.yCm } : { xCm: grille.xCm, yCm: edge };
  }
  return null;
}

export const invert = (bench: Bench, mic: MicId): Bench => withMic(bench, mic, { inverted: !bench[mic].inverted });

export const setBody = (bench: Bench, mic: MicId, cm: number): Bench =>
  withMic(bench, mic, { bodyCm: within(toMm(cm), 0, BODY_MOST_CM, bench[mic].bodyCm) });

/** To a hundredth of a millisecond. */
export const setMixDelay = (bench: Bench, mic: MicId, ms: number): Bench =>
  withMic(bench, mic, { mixDelayMs: within(Math.round(ms * 100) / 100, 0, MIX_DELAY_MOST_MS, bench[mic].mixDelayMs) });

/** Phantom power goes on only where no speaker is plugged in. */
export function setPhantom(bench: Bench, mic: MicId, on: boolean): Bench {
  return on && bench[mic].kind === 'speaker' ? bench : withMic(bench, mic, { phantomOn: on });
}

/** A speaker is plugged in only with the phantom power off. */
export function setKind(bench: Bench, mic: MicId, kind: BenchMic['kind']): Bench {
  return kind === 'speaker' && bench[mic].phantomOn ? bench : withMic(bench, mic, { kind });
}

export const setHit = (bench: Bench, hit: HitId): Bench => (DRUMS[bench.drum].hits[hit] ? { ...bench, hit } : bench);

export const setLevels = (bench: Bench, levels: Bench['levels']): Bench => ({ ...bench, levels });

export const setTemperature = (bench: Bench, temperatureC: number): Bench => ({
  ...bench,
  temperatureC: within(temperatureC, TEMPERATURES_C.least, TEMPERATURES_C.most, bench.temperatureC),
});

export const watch = (bench: Bench): Bench => ({ ...bench, watched: bench.watched + 1 });

const PLAIN_MIC: Omit<BenchMic, 'grille'> = {
  bodyCm: 0.5,
  inverted: false,
  mixDelayMs: 0,
  kind: 'mic',
  wiredOther: true,
  phantomOn: true,
};

const micAt = (xCm: number, yCm: number, change: Partial<BenchMic> = {}): BenchMic => ({
  ...PLAIN_MIC,
  grille: { xCm, yCm },
  ...change,
});

/** A bench with two mics at these places, everything else as it is at first. */
export function freshBench(
  drum: DrumId,
  a: readonly [xCm: number, yCm: number, change?: Partial<BenchMic>],
  b: readonly [xCm: number, yCm: number, change?: Partial<BenchMic>],
  change: Partial<Bench> = {},
): Bench {
  return {
    drum,
    hit: drum === 'kick' ? 'kick' : 'snare',
    a: micAt(...a),
    b: micAt(...b),
    levels: 'equal',
    temperatureC: 20,
    watched: 0,
    ...change,
  };
}

/** What stands there when a drum is chosen. */
export function startBench(drum: DrumId): Bench {
  if (drum === 'kick') return freshBench('kick', [18, 6], [58, 0]);
  if (drum === 'kit') return freshBench('kit', [-70, 160], [76, 170]);
  return freshBench('snare', [-14, 17], [18, -20]);
}

const toMm = (cm: number): number => Math.round(cm * 10) / 10;
/** What is no number changes nothing. */
const within = (value: number, least: number, most: number, before: number): number =>
  Number.isFinite(value) ? Math.min(most, Math.max(least, value)) : before;
