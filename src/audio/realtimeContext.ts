/** A running AudioContext, and word when the browser stops it. */
import type { Problem } from './link';
import { contextProblem, problem } from './problems';

const START_MS = 4000;

/** DOM types lack it (W3C Web Audio API 1.1, AudioContextOptions). */
type ContextOptions = AudioContextOptions & { sinkId?: string | { type: 'none' } };

export interface ContextWish {
  /** Hz; undefined: the browser's own */
  sampleRate?: number | undefined;
  /** true: no output device at all */
  silent: boolean;
}

/** @throws ProblemError */
export function openContext(wish: ContextWish): AudioContext {
  const options: ContextOptions = { latencyHint: 'interactive' };
  if (wish.sampleRate !== undefined) options.sampleRate = wish.sampleRate;
  if (wish.silent) options.sinkId = { type: 'none' };
  try {
    return new AudioContext(options);
  } catch (thrown) {
    throw contextProblem(thrown, wish.sampleRate);
  }
}

const PAUSED: Problem = {
  code: 'unknown',
  text: 'The browser has paused the audio, so nothing is measured; come back to this tab, or open the source again.',
};

/**
 * Starts the context and watches it; returns the function that ends the watch.
 * @throws ProblemError when the browser will not start it (outside a press it waits for one without a word)
 */
export async function watchContext(
  context: AudioContext,
  report: (problem: Problem) => void,
  over: (code: Problem['code']) => void,
): Promise<() => void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const tooLong = new Promise<never>((_, reject) => {
    const text = 'The browser didn’t let the audio start; press the button again.';
    timer = setTimeout(() => reject(problem('unknown', text)), START_MS);
  });
  try {
    await Promise.race([context.resume(), tooLong]);
  } finally {
    clearTimeout(timer);
  }
  let paused = false;
  const onState = (): void => {
    const stopped = context.state !== 'running' && context.state !== 'closed';
    if (stopped === paused) return;
    paused = stopped;
    if (stopped) report(PAUSED);
    else over(PAUSED.code);
  };
  context.addEventListener('statechange', onState);
  return () => context.removeEventListener('statechange', onState);
}
