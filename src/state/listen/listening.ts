/** Listening: which version is heard, how, and from what; all of it is one sound, looped, or what comes in live. */
import { createEffect, createSignal, on, untrack } from 'solid-js';
import { createEars } from './ears';
import { createHeard, type Looped } from './heard';
import type { Listening, ListeningOptions } from './listeningTypes';
import { createLiveSound } from './liveSound';
import { createLoops } from './loops';

/** To be called where effects have an owner; all of it is silent and gone with that. */
export function createListening(options: ListeningOptions): Listening {
  const { source, versions, blind } = options;
  const [looped, setLooped] = createSignal<Looped | null>(null);
  const ears = createEars();
  const { mix, ...heard } = createHeard(options, looped, ears.live);
  ears.follow(mix);
  const live = createLiveSound(source, ears, setLooped, heard.start, () => loops.stop());
  const loops = createLoops(source, ears, looped, setLooped, live.endLive);

  createEffect(
    on(
      source.key,
      () => {
        ears.fall(null);
        setLooped(null);
      },
      { defer: true },
    ),
  );
  createEffect(() => {
    if (blind?.()) heard.setStart('equal');
  });
  createEffect(() => {
    if (source.soundsElsewhere()) untrack(() => ears.fall(null));
  });

  return {
    versions,
    ...heard,
    ...loops,
    ...live,
    level: ears.level,
    setLevel(value) {
      const most = untrack(() => (ears.waiting() || heard.tooSoft() ? ears.level() : 1));
      ears.setLevel(Math.min(most, Math.max(0, value || 0)));
    },
    playing: ears.playing,
    starting: ears.starting,
    waiting: ears.waiting,
    hits: () => looped()?.loop.hits ?? null,
    silent: ears.silent,
    live: ears.live,
  };
}
