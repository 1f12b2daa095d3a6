/** The page's door to the workers that read a take. */
import type { DrumReport, TakeProgress, TakeReport } from '../../take/model';
import type { ReadPair } from '../../take/pairs/readWhole';
import type { FromTakeWorker, ReadTake, ToTakeWorker } from './takeMessages';

export interface TakeEvents {
  onProgress(progress: TakeProgress): void;
  /** @param pairs of each of its pairs the whole reading */
  onDrum(drum: DrumReport, pairs: ReadPair[]): void;
  onReport(report: TakeReport): void;
  /** one sentence: what is wrong and what to do */
  onFailed(text: string): void;
}

export interface TakeRun {
  /** nothing more is said */
  cancel(): void;
}

const NOT_LOADED =
  'The program that reads takes could not be loaded from this page’s server; check that the server is running, then try again.';
const STOPPED = 'Reading stopped: the browser may be short of memory; close other tabs, then try again.';

/** What is to be read, and what was said of it. */
export type AskedTake = Pick<ReadTake, 'files' | 'told' | 'temperatureC'>;

/** more share one disk and need memory each */
const MOST_HANDS = 4;

/** @param cores of this machine, as far as the browser tells */
export const handsFor = (cores: number | undefined): number => Math.max(1, Math.min(MOST_HANDS, cores ?? 1));

/** @param openWorker makes a worker of takeWorker.ts @param cores as `handsFor` takes them */
export function readTakeFiles(
  openWorker: () => Worker,
  asked: AskedTake,
  events: TakeEvents,
  cores: number | undefined = navigator.hardwareConcurrency,
): TakeRun {
  const workers: Worker[] = [];
  let begun = false;
  let over = false;
  const end = (): void => {
    over = true;
    for (const worker of workers) worker.terminate();
  };
  const open = (): Worker => {
    const worker = openWorker();
    workers.push(worker);
    worker.onerror = () => {
      if (over) return;
      end();
      events.onFailed(begun ? STOPPED : NOT_LOADED);
    };
    return worker;
  };
  const tell = (worker: Worker, message: ToTakeWorker, ports: MessagePort[]): void =>
    worker.postMessage(message, ports);

  const lead = open();
  lead.onmessage = ({ data }: MessageEvent<FromTakeWorker>) => {
    if (over) return;
    begun = true;
    if (data.type === 'progress') return events.onProgress(data.progress);
    if (data.type === 'drum') return events.onDrum(data.drum, data.pairs);
    end();
    if (data.type === 'report') events.onReport(data.report);
    else events.onFailed(data.text);
  };
  const hands = Array.from({ length: handsFor(cores) }, () => {
    const { port1, port2 } = new MessageChannel();
    tell(open(), { type: 'help', lead: port1 }, [port1]);
    return port2;
  });
  tell(lead, { type: 'read', ...asked, hands }, hands);
  return { cancel: end };
}
