/** A whole take: listened to once, track by track; then every drum's pairs from the same hits. */
import { guessMic, type MicGuess } from '../advice/names/guessPair';
import { alone, type Crew, CrewError, shared } from './crew';
import type { DrumReport, TakeProgress, TakeReport, TakeTrack } from './model';
import { stemOf } from './names';
import type { ReadPair } from './pairs/readWhole';
import { type AlignedTake, aligned } from './report/tracks';
import type { ScannedTrack } from './scan/levelScan';
import { goOn, TakeCancelled } from './steps/cancelled';
import { concludeTake } from './steps/concludeTake';
import type { DrumTask } from './steps/labelHits';
import type { ReadDrum } from './steps/readDrum';
import { byFile } from './steps/together';

export { TakeCancelled } from './steps/cancelled';

export interface TakeOptions {
  temperatureC?: number;
  /** what a track's name says; guessed unless told */
  mics?: readonly (MicGuess | null)[];
  onProgress?: (progress: TakeProgress) => void;
  /** a drum's pairs are read, in the report's order, with the whole reading of each: what is wrong with the whole comes at the end */
  onDrum?: (drum: DrumReport, pairs: ReadPair[]) => void;
  /** looked at now and then: true ends it with a TakeCancelled */
  isCancelled?: () => boolean;
  /** who listens and reads; this thread alone unless told */
  crew?: Crew;
}

/** how much of the time listening takes, of listening and reading */
const SCAN_SHARE = 0.4;

/** @throws TakeError where nothing can be read of it; TakeCancelled; whatever the tracks come with */
export async function readTake(given: readonly TakeTrack[], options: TakeOptions = {}): Promise<TakeReport> {
  const { temperatureC = 20, isCancelled } = options;
  const files = given.map(({ file }) => file);
  const mics = files.map((file, t) => options.mics?.[t] ?? guessMic(stemOf(file)));
  const take = aligned(given);
  const crew = options.crew ?? alone(take.tracks, files, isCancelled);
  const scans = await listen(files, take, crew, options);
  goOn(isCancelled);
  const { sampleRate, frames, reasons } = take;
  const labelled = await crew.label({ tracks: given.map(plain), mics, sampleRate, reasons, scans, temperatureC });
  const drums = await readDrums(labelled.tasks, crew, options);
  return concludeTake({ files, mics, sampleRate, frames, temperatureC }, labelled, drums);
}

const plain = ({ file, channel }: TakeTrack): Pick<TakeTrack, 'file' | 'channel'> => ({ file, channel });

/** @returns of each track what was heard; null: it can't be read, and the take's reasons say why */
async function listen(
  files: readonly string[],
  { tracks, reasons }: AlignedTake,
  crew: Crew,
  { onProgress, isCancelled }: TakeOptions,
): Promise<(ScannedTrack | null)[]> {
  const scans = files.map((): ScannedTrack | null => null);
  const groups = byFile(tracks);
  const weight = (group: readonly number[]): number => group.reduce((sum, t) => sum + (tracks[t]?.frames ?? 0), 0);
  const whole = groups.reduce((sum, group) => sum + weight(group), 0);
  const shares = groups.map(() => 0);
  await shared(groups, crew.hands, async (group, g) => {
    goOn(isCancelled);
    const doing = `Listening to ${files[group[0] as number]}`;
    const tell = (share: number): void => {
      shares[g] = share;
      const heard = groups.reduce((sum, one, i) => sum + (shares[i] as number) * weight(one), 0);
      onProgress?.({ share: (SCAN_SHARE * heard) / whole, doing });
    };
    tell(0);
    try {
      const heard = await crew.scan(group, tell);
      group.forEach((t, i) => {
        scans[t] = heard[i] ?? null;
      });
    } catch (thrown) {
      if (thrown instanceof TakeCancelled || thrown instanceof CrewError) throw thrown;
      // a file that turns out to be damaged is left out, and the rest is read
      for (const t of group) reasons[t] = thrown instanceof Error ? thrown.message : String(thrown);
    }
  });
  return scans;
}

async function readDrums(
  tasks: readonly DrumTask[],
  crew: Crew,
  { onProgress, onDrum, isCancelled }: TakeOptions,
): Promise<DrumReport[]> {
  // the longest first, so that no hand is left with one at the end; told in the report's order all the same
  const order = tasks.map((_, d) => d).sort((p, q) => work(tasks[q]) - work(tasks[p]) || p - q);
  const whole = tasks.reduce((sum, task) => sum + work(task), 0);
  const drums = new Array<ReadDrum | undefined>(tasks.length);
  const shares = tasks.map(() => 0);
  let told = 0;
  await shared(order, crew.hands, async (d) => {
    goOn(isCancelled);
    const task = tasks[d] as DrumTask;
    const tell = (share: number): void => {
      shares[d] = share;
      const read = tasks.reduce((sum, one, i) => sum + (shares[i] as number) * work(one), 0);
      onProgress?.({ share: SCAN_SHARE + ((1 - SCAN_SHARE) * read) / whole, doing: `Reading the ${task.drum}` });
    };
    tell(0);
    drums[d] = await crew.readDrum(task, tell);
    for (let next = drums[told]; next; next = drums[++told]) {
      onDrum?.(next.report, next.pairs);
      // whoever wants the whole readings has them now
      next.pairs = [];
    }
  });
  return drums.map((drum) => (drum as ReadDrum).report);
}

const work = (task: DrumTask | undefined): number => (task ? 1 + task.pairs.length * task.starts.length : 0);
