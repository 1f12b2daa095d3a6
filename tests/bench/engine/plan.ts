/** What plans gain, told and really done: the example kit, the real recordings, each drum of a kit that was struck one after the other. */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { PairKindId } from '../../../src/advice/plan/pairKinds';
import { type Figure, planTrial, type Trial } from '../../support/sound/planTrial';
import { openChannels, openPair, recordedPairs, type Sound } from '../../support/sound/recordedPairs';
import { table } from '../table';

const take = fileURLToPath(new URL('../../../../shared/takes/kit-b-solo/', import.meta.url));
/** s before a drum's first hit and after its last */
const BEFORE_SECONDS = 0.4;
const AFTER_SECONDS = 1;
const ROOM = /room/i;
const OVERHEAD = /OH/;

interface Truth {
  tracks: { file: string }[];
  hits: { seconds: number; drum: string }[];
  drums: { drum: string; ownTrack: string }[];
}

const row = (name: string, trial: Trial): (string | number)[] => {
  const told = trial.checked.flatMap(({ low, all }) => [low, all]).filter((one) => one !== null && one.toldDb !== null);
  const off = (poorly: boolean): string => {
    const misses = (told as Figure[])
      .filter(({ withinDb }) => withinDb >= 1 === poorly)
      .map(({ toldDb, gainsDb }) => Math.abs((toldDb as number) - gainsDb));
    return misses.length === 0 ? '–' : Math.max(...misses).toFixed(2);
  };
  const [recommended] = trial.checked;
  const gained = [recommended?.low, recommended?.all].flatMap((one) => (one ? [one.gainsDb] : []));
  const { share } = trial;
  return [
    name,
    told.length,
    off(false),
    off(true),
    Math.min(...gained).toFixed(2),
    share ? share.gainsDb.toFixed(2) : '–',
    share ? share.bestDb.toFixed(2) : '–',
  ];
};

function* takePairs(): Generator<{ name: string; kind: PairKindId; sound: Sound }> {
  if (!existsSync(take)) return;
  const truth = JSON.parse(readFileSync(`${take}truth.json`, 'utf8')) as Truth;
  for (const { drum, ownTrack } of truth.drums) {
    const times = truth.hits.filter((hit) => hit.drum === drum).map(({ seconds }) => seconds);
    for (const { file } of truth.tracks) {
      const track = file.replace(/\.wav$/, '');
      if (track === ownTrack) continue;
      const { sampleRate, a, b } = openChannels([`${take}${ownTrack}.wav`, '--b-file', take + file]);
      const from = Math.max(0, Math.round((Math.min(...times) - BEFORE_SECONDS) * sampleRate));
      const to = Math.round((Math.max(...times) + AFTER_SECONDS) * sampleRate);
      const kind = ROOM.test(track) ? 'close-room' : OVERHEAD.test(track) ? 'close-overhead' : 'other';
      const sound = { sampleRate, a: a.slice(from, to), b: b.slice(from, to) };
      yield { name: `${drum}: ${ownTrack} & ${track}`, kind, sound };
    }
  }
}

export function planTable(): string {
  const rows: (string | number)[][] = [];
  let gained = 0;
  let best = 0;
  const tell = (name: string, trial: Trial | null): void => {
    if (trial === null) return;
    rows.push(row(name, trial));
    gained += trial.share?.gainsDb ?? 0;
    best += trial.share?.bestDb ?? 0;
  };
  for (const pair of recordedPairs()) tell(pair.name, planTrial(openPair(pair), pair.kind));
  const files = `${gained.toFixed(1)} of ${best.toFixed(1)} dB`;
  const before = [gained, best] as const;
  for (const { name, kind, sound } of takePairs()) tell(name, planTrial(sound, kind));
  const ofTake = `${(gained - before[0]).toFixed(1)} of ${(best - before[1]).toFixed(1)} dB`;
  const head = [
    'pair',
    'figures',
    'miss, well carried',
    'miss, else',
    'least gain',
    'gain of the plan',
    'best of the search',
  ];
  return `${table('Plans, told and really done (dB)', head, rows)}\nexamples and real recordings: ${files}; pairs of the take: ${ofTake}`;
}
