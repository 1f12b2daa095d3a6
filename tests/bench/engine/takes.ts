/** The takes of a real kit, all microphones at once: every firm pair of a drum's own microphone with another, over the whole take. */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Engine } from '../../../src/dsp/engine';
import { type TuningChanges, tuned } from '../../../src/dsp/tuning/tuned';
import { readWav } from '../../../src/files/readWav';
import { HITS_NEEDED } from '../../../src/reading/limits';
import { answerOf, type DrumReading, type Reading } from '../../../src/reading/reading';
import { table } from '../table';

const FOLDER = fileURLToPath(new URL('../../../../shared/takes/', import.meta.url));
export const TAKES_ABSENT = 'the takes of a real kit (../shared/takes) are not here';
export const takesHere = existsSync(`${FOLDER}kit-b-solo/truth.json`);
export const TAKES = ['kit-b-solo', 'kit-b-groove'];
const BLOCK = 1024;
const REACH_MS = 34;
/** a hit is in the reading so long after it, s */
const KNOWN_SECONDS = 0.3;
/** a hit is the truth's where it lies so near, s */
const SAME_HIT_SECONDS = 0.03;

interface Other {
  delaySamples: number;
  polarity: 'same' | 'inverted';
  toleranceSamples: number;
  firm: boolean;
}
export interface TakeTruth {
  drums: { drum: string; ownTrack: string; others: Record<string, Other> }[];
  hits: { seconds: number; drum: string }[];
}
export interface TakePair extends Other {
  take: string;
  drum: string;
  a: string;
  b: string;
}
export const takeTruth = (take: string): TakeTruth =>
  JSON.parse(readFileSync(`${FOLDER}${take}/truth.json`, 'utf8')) as TakeTruth;

/** Every firm pair of the take. */
export const takePairs = (take: string): TakePair[] =>
  takeTruth(take).drums.flatMap(({ drum, ownTrack, others }) =>
    Object.entries(others)
      .filter(([, other]) => other.firm)
      .map(([b, other]) => ({ ...other, take, drum, a: ownTrack, b })),
  );

export function takeTrack(take: string, track: string): { x: Float32Array; sampleRate: number } {
  const wav = readWav(readFileSync(`${FOLDER}${take}/${track}.wav`));
  return { x: wav.read(0), sampleRate: wav.sampleRate };
}

export interface PlayedPair {
  pair: TakePair;
  /** what is shown at the end */
  end: 'right' | 'wrong' | 'of another drum' | 'none';
  /** the drum that it is of; null: none */
  endDrum: string | null;
  reason: string;
  /** the asked drum's entry in the list */
  listed: 'right' | 'wrong' | 'none';
  /** certain readings on the way: of the asked drum and right, of it and wrong */
  right: number;
  wrong: number;
  /** certain readings of another drum than the pair's own, see `ownDrum`, once that has had four hits */
  ofAnother: number;
}

/**
 * The drum that a pair is about where nobody says it: the one whose own microphone A is, else B. A track is named like its drum; to the
 * toms and the hat no microphone belongs, so there it is the one that is asked for.
 */
export function ownDrum({ take, drum, a, b }: TakePair): string {
  const names = takeTruth(take).drums.map((one) => one.drum);
  const of = (track: string): string | undefined => names.find((name) => track.toLowerCase().includes(name));
  return of(a) ?? of(b) ?? drum;
}

/** The pair read over the whole take. */
export function playPair(pair: TakePair, changes: TuningChanges = {}): PlayedPair {
  const { x: a, sampleRate } = takeTrack(pair.take, pair.a);
  const { x: b } = takeTrack(pair.take, pair.b);
  const { hits } = takeTruth(pair.take);
  const engine = new Engine(sampleRate, { tuning: tuned(changes), maxLagMs: REACH_MS });
  const drumOf = new Map<number, { struck: string; id: number | null }>();
  const struckAt = (seconds: number): string => {
    const near = hits.filter((hit) => Math.abs(hit.seconds - seconds) < SAME_HIT_SECONDS).map(({ drum }) => drum);
    // of drums struck at once the one that is asked for counts
    return near.includes(pair.drum) ? pair.drum : (near[0] ?? 'none');
  };
  const drumNamed = (id: number): string => {
    const counts = new Map<string, number>();
    for (const { struck, id: of } of drumOf.values()) if (of === id) counts.set(struck, (counts.get(struck) ?? 0) + 1);
    return [...counts].sort((p, q) => q[1] - p[1])[0]?.[0] ?? 'none';
  };
  const isRight = (d: DrumReading): boolean =>
    d.state === 'measured' &&
    d.polarity === pair.polarity &&
    Math.abs(d.delaySamples - pair.delaySamples) <= pair.toleranceSamples;
  const counts = { right: 0, wrong: 0, ofAnother: 0 };
  const own = ownDrum(pair);
  const known = hits.filter(({ drum }) => drum === own).map(({ seconds }) => seconds + KNOWN_SECONDS)[HITS_NEEDED - 1];
  let last: Reading | undefined;
  const look = (): void => {
    const reading = engine.reading();
    for (const hit of reading.perHit) drumOf.set(hit.serial, { struck: struckAt(hit.timeSeconds), id: hit.drum });
    last = reading;
    const said = answerOf(reading);
    if (said.state !== 'measured' || reading.drum === null) return;
    const shown = reading.drums.find(({ id }) => id === reading.drum) as DrumReading;
    const name = drumNamed(shown.id);
    if (name !== own && reading.streamSeconds >= (known ?? Number.POSITIVE_INFINITY)) counts.ofAnother++;
    if (name !== pair.drum) return;
    if (isRight(shown)) counts.right++;
    else counts.wrong++;
  };
  for (let i = 0; i < a.length; i += BLOCK) {
    engine.push(a.subarray(i, i + BLOCK), b.subarray(i, i + BLOCK));
    look();
  }
  engine.flush();
  look();
  const { drums, drum } = last as Reading;
  const said = answerOf(last as Reading);
  const shown = drums.find(({ id }) => id === drum);
  const sure = said.state === 'measured' && shown;
  const entries = drums.filter((d) => d.state === 'measured' && drumNamed(d.id) === pair.drum);
  return {
    pair,
    end: !sure ? 'none' : drumNamed(shown.id) !== pair.drum ? 'of another drum' : isRight(shown) ? 'right' : 'wrong',
    endDrum: sure ? drumNamed(shown.id) : null,
    reason: said.reason,
    listed: entries.length === 0 ? 'none' : entries.every(isRight) ? 'right' : 'wrong',
    ...counts,
  };
}

export function takesTable(changes: TuningChanges = {}): string {
  if (!takesHere) return `\nTakes of a real kit: skipped, ${TAKES_ABSENT}.`;
  const rows = TAKES.flatMap((take) =>
    takePairs(take).map((pair) => {
      const p = playPair(pair, changes);
      const end = p.end === 'none' ? p.reason : p.end;
      return [take, pair.drum, `${pair.a} – ${pair.b}`, end, p.listed, p.right, p.wrong, p.ofAnother];
    }),
  );
  return table(
    'A real kit played: every firm pair over the whole take; certain readings, of those of the drum, and of another than the pair’s own after its fourth hit',
    ['take', 'drum', 'pair', 'at the end', 'in the list', 'right', 'wrong', 'of another'],
    rows,
  );
}
