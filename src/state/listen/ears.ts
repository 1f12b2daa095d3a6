/** What loops and live sound share: the one path to the ears, its level, and why nothing is heard. */
import { type Accessor, batch, createEffect, createSignal, onCleanup } from 'solid-js';
import { problemOf } from '../../audio/link';
import type { ListeningPath, PathEvents } from '../../listen/path';
import type { Mix } from '../../listen/version';
import type { LiveState, SilentReason } from './listeningTypes';

/** turned up evenly, as ears have it */
const factorOf = (level: number): number => level ** 2;

export type Ears = ReturnType<typeof createEars>;

/** To be called where effects have an owner; all of it is silent and gone with that. */
export function createEars() {
  const [level, setLevel] = createSignal(0);
  const [playing, setPlaying] = createSignal(false);
  const [starting, setStarting] = createSignal(false);
  const [waiting, setWaiting] = createSignal(false);
  const [live, setLive] = createSignal<LiveState>('off');
  const [silent, setSilent] = createSignal<SilentReason | null>(null);
  let path: ListeningPath | null = null;
  let mix: Accessor<Mix | null> = () => null;
  /** counts what was asked for: an answer to an older question comes too late */
  let asked = 0;

  createEffect(() => {
    const wanted = factorOf(level());
    path?.setLevel(wanted);
  });

  function closePath(): void {
    path?.close();
    path = null;
  }

  /** Everything is silent, and stays so until somebody asks again. */
  function fall(reason: SilentReason | null): void {
    asked += 1;
    closePath();
    batch(() => {
      setPlaying(false);
      setStarting(false);
      setWaiting(false);
      setLevel(0);
      setLive('off');
      setSilent(reason);
    });
  }

  const failed = (thrown: unknown): void => fall({ code: 'failed', text: problemOf(thrown).text });
  const events: PathEvents = {
    onRunaway: () => fall({ code: 'runaway' }),
    onStopped: (text) => fall({ code: 'failed', text }),
  };

  /** From here on it is the path, instead of the one before. */
  function take(opened: ListeningPath): void {
    closePath();
    path = opened;
    const wanted = mix();
    if (wanted) opened.choose(wanted);
    opened.setLevel(factorOf(level()));
  }

  /** @returns whether nobody has asked for anything else since */
  function ask(): () => boolean {
    const mine = ++asked;
    return () => mine === asked;
  }

  onCleanup(() => {
    asked += 1;
    closePath();
  });

  return {
    level,
    setLevel,
    playing,
    setPlaying,
    starting,
    setStarting,
    waiting,
    setWaiting,
    live,
    setLive,
    silent,
    setSilent,
    events,
    ask,
    take,
    closePath,
    fall,
    failed,
    path: (): ListeningPath | null => path,
    /** what is heard of it, from here on */
    follow(wanted: Accessor<Mix | null>): void {
      mix = wanted;
      createEffect(() => {
        const now = wanted();
        if (now) path?.choose(now);
      });
    },
  };
}
