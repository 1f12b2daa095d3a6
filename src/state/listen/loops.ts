/** Loops: a hit or a bar of what the source has, round and round. */
import { type Accessor, batch, createEffect, createSignal, on, type Setter, untrack } from 'solid-js';
import { Matching } from '../../listen/matching';
import { chooseLoop, type Loop, type Stretch } from '../../listen/stretch';
import type { PairSound } from '../../listen/version';
import type { Ears } from './ears';
import type { Looped } from './heard';
import type { SoundSource } from './soundSource';

/** a hit that is waited for is looked for so often, ms */
const LOOK_MS = 400;

/** To be called where effects have an owner. @param endLive live sound ends where a loop begins */
export function createLoops(
  source: SoundSource,
  ears: Ears,
  looped: Accessor<Looped | null>,
  setLooped: Setter<Looped | null>,
  endLive: () => void,
) {
  const [stretch, setStretch] = createSignal<Stretch>('hit');

  /** @param before the same sound, matched in another stretch */
  function lay(sound: PairSound, loop: Loop, before?: Matching): Loop {
    setLooped({ sound, loop, matching: new Matching(loop, sound.offsetSamples, before?.downDb) });
    return loop;
  }

  /**
   * A sound and what goes round of it. Where mics are open the first whole hit is waited for.
   * @returns null: there is none, which was told; or nobody wants it any more
   */
  async function find(isMine: () => boolean): Promise<{ sound: PairSound; loop: Loop } | null> {
    for (;;) {
      const sound = await source.sound();
      if (!isMine()) return null;
      const loop = sound && chooseLoop(sound, untrack(stretch));
      if (sound && loop) return { sound, loop };
      if (untrack(source.live) === null) {
        ears.fall({ code: sound === null ? 'no-sound' : 'no-hit' });
        return null;
      }
      wait();
      await new Promise((done) => setTimeout(done, LOOK_MS));
      if (!isMine()) return null;
    }
  }

  /** Nothing goes round meanwhile, and no level is set by what isn't there. */
  function wait(): void {
    ears.path()?.play(false);
    batch(() => {
      ears.setLevel(0);
      ears.setPlaying(false);
      ears.setWaiting(true);
    });
  }

  let openRate = 0;

  async function play(): Promise<void> {
    if (ears.live() === 'on') endLive();
    source.hush();
    const isMine = ears.ask();
    batch(() => {
      // other hits may be louder
      ears.setLevel(0);
      ears.setSilent(null);
      ears.setStarting(true);
      ears.setWaiting(false);
    });
    try {
      const found = await find(isMine);
      if (found === null) return;
      const { sound } = found;
      lay(sound, found.loop);
      if (ears.path() === null || openRate !== sound.sampleRate) {
        const opened = await source.openLoops(sound.sampleRate, ears.events);
        if (!isMine()) return opened.close();
        ears.take(opened);
        openRate = sound.sampleRate;
      }
      const { loop: now } = untrack(looped) as Looped;
      ears.path()?.setLoop(now.a, now.b);
      ears.path()?.play(true);
      batch(() => {
        ears.setStarting(false);
        ears.setWaiting(false);
        ears.setPlaying(true);
      });
    } catch (thrown) {
      if (isMine()) ears.failed(thrown);
    }
  }

  function stop(): void {
    ears.ask();
    ears.path()?.play(false);
    batch(() => {
      ears.setLevel(0);
      ears.setPlaying(false);
      ears.setStarting(false);
      ears.setWaiting(false);
    });
  }

  // another stretch of the same sound
  createEffect(
    on(
      stretch,
      () => {
        const now = looped();
        if (now === null || ears.live() === 'on') return;
        const loop = chooseLoop(now.sound, stretch());
        if (loop === null) return ears.fall({ code: 'no-hit' });
        lay(now.sound, loop, now.matching);
        if (ears.playing()) ears.path()?.setLoop(loop.a, loop.b);
      },
      { defer: true },
    ),
  );

  return { stretch, setStretch, play, stop };
}
