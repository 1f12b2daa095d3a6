/** The page's door to the worker that cuts one pair's hits out of a take. */
import type { CutPair, FromPairWorker } from './pairMessages';

const NOT_LOADED =
  'The program that reads takes could not be loaded from this page’s server; check that the server is running, then try again.';

/** @param openWorker makes the worker of pairWorker.ts. Never rejects */
export function cutPair(openWorker: () => Worker, asked: CutPair): Promise<FromPairWorker> {
  const worker = openWorker();
  return new Promise<FromPairWorker>((resolve) => {
    worker.onmessage = ({ data }: MessageEvent<FromPairWorker>) => resolve(data);
    worker.onerror = () => resolve({ type: 'failed', text: NOT_LOADED });
    worker.postMessage(asked);
  }).finally(() => worker.terminate());
}
