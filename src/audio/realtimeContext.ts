/** A running AudioContext, and word when nothing arrives from it. */
import { DataWatch } from './dataWatch';
import { KeepUpWatch } from './keepUpWatch';
import type { MeterEvents, Problem } from './link';
import { contextProblem, problem } from './problems';

/** a context starts within; where a press came before, a busy computer is given longer */
const START_MS = 4000;
const BUSY_START_MS = 12_000;

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

const NOT_LET = 'The browser didn’t let the audio start; press the button again.';

/** Firefox 153: a context stays suspended, without a word, where the system has no sound output */
const NO_OUTPUT =
  'The audio doesn’t start: this browser needs a sound output for it. Plug in headphones or switch the interface’s outputs on, then press “Try again”. A recording is analysed without one.';

/** A press came before, so that it isn't one that the browser waits for. */
const pressedBefore = (): boolean => navigator.userActivation?.hasBeenActive === true;

/** @throws ProblemError when the browser will not start it (outside a press it waits for one without a word) */
export async function startContext(context: AudioContext): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const tooLong = new Promise<never>((_, reject) => {
    const pressed = pressedBefore();
    const fail = (): void => reject(problem('unknown', pressed ? NO_OUTPUT : NOT_LET));
    timer = setTimeout(fail, pressed ? BUSY_START_MS : START_MS);
  });
  try {
    await Promise.race([context.resume(), tooLong]);
  } finally {
    clearTimeout(timer);
  }
}

const PAUSED: Problem = {
  code: 'no-data',
  text: 'The browser has paused the audio, so nothing is measured; come back to this tab, or press “Try again”.',
};

/** a new context whose time never began: an audio thread that hangs holds up the next one as well */
const STANDS_STILL =
  'The browser’s audio has come to a stop; if “Try again” doesn’t start it, export the kit sheet in case it isn’t saved, then reload the page.';

const DROPPED: Problem = {
  code: 'dropped-audio',
  text: 'The computer drops audio: close other programs; the meter carries on by itself once it keeps up.',
};

/** What feeds the meter: `captured`, what isn't taken in time is lost; otherwise it only stutters. */
export interface Feed {
  captured: boolean;
  /** the page has noticed a loss: hits of so many seconds no longer count */
  onLost(seconds: number): void;
  /** data arrive again after none did */
  onBack?(): void;
}
/** by so much of the time a stream falls behind that is said to, as the page sees it */
const BEHIND_SHARE = { captured: 0.03, played: 0.25 };

export interface ContextWatch {
  data: Pick<DataWatch, 'begin' | 'end' | 'takeIn'> & Pick<KeepUpWatch, 'arrived'>;
  /** the context says that it runs, and its time stands still: whoever touches its graph waits as long as the audio thread hangs */
  isStuck(): boolean;
  /** ends the watch, and does what touches the graph: now, or when a context that is stuck goes on, or never */
  close(endGraph: () => void): void;
}

/** @param nothing said where the context runs, and yet nothing comes. @returns to be begun; `close` ends it for good */
export function watchData(
  context: AudioContext,
  nothing: string,
  events: Pick<MeterEvents, 'onProblem' | 'onProblemOver'>,
  feed: Feed,
): ContextWatch {
  let stuckAt: number | null = null;
  const paused = (): boolean => context.state !== 'running';
  const watch = new DataWatch({
    onNone() {
      stuckAt = context.currentTime;
      const text = context.currentTime === 0 ? STANDS_STILL : nothing;
      events.onProblem(paused() ? PAUSED : { code: 'no-data', text });
    },
    onSome(isBack) {
      stuckAt = null;
      if (isBack) feed.onBack?.();
      events.onProblemOver?.('no-data');
    },
    paused,
  });
  const keepUp = new KeepUpWatch(
    {
      takeIn: () => data.takeIn(),
      onDropping: () => events.onProblem(DROPPED),
      onOver: () => events.onProblemOver?.('dropped-audio'),
      onLost: (seconds) => feed.captured && feed.onLost(seconds),
    },
    feed.captured ? BEHIND_SHARE.captured : BEHIND_SHARE.played,
  );
  const data: ContextWatch['data'] = {
    takeIn: () => undefined,
    begin(isNew) {
      watch.begin(isNew);
      keepUp.begin();
    },
    arrived(arrival) {
      watch.arrived(arrival);
      keepUp.arrived(arrival);
    },
    end() {
      watch.end();
      keepUp.end();
    },
  };
  watch.takeIn = () => data.takeIn();
  const onState = (): void => {
    if (paused() && context.state !== 'closed') watch.pause();
  };
  const onVisible = (): void => {
    if (document.visibilityState !== 'visible') return;
    // refused without a press: then it stays as it is, and "Try again" is one
    if (paused()) void context.resume().catch(() => undefined);
    watch.look();
  };
  context.addEventListener('statechange', onState);
  document.addEventListener('visibilitychange', onVisible);
  const isStuck = (): boolean => !paused() && stuckAt === context.currentTime;
  return {
    data,
    isStuck,
    close(endGraph) {
      const wait = isStuck();
      context.removeEventListener('statechange', onState);
      document.removeEventListener('visibilitychange', onVisible);
      data.end();
      if (wait) whenItMoves(context, endGraph);
      else endGraph();
    },
  };
}

function whenItMoves(context: AudioContext, act: () => void): void {
  const at = context.currentTime;
  const timer = setInterval(() => {
    if (context.currentTime === at) return;
    clearInterval(timer);
    act();
  }, 1000);
}
