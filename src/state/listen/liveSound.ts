/** Live sound: off until its warning was read, silent at first, and off again whenever anything else happens. */
import { type Accessor, batch, createEffect, createMemo, on, type Setter, untrack } from 'solid-js';
import { Matching } from '../../listen/matching';
import { chooseLoop } from '../../listen/stretch';
import type { Start } from '../../listen/version';
import type { Ears } from './ears';
import type { Looped } from './heard';
import type { SoundSource } from './soundSource';

/** To be called where effects have an owner. @param stop ends the loop that goes round */
export function createLiveSound(
  source: SoundSource,
  ears: Ears,
  setLooped: Setter<Looped | null>,
  start: Accessor<Start>,
  stop: () => void,
) {
  const { live, setLive } = ears;
  const canLive = createMemo(() => source.live() !== null);

  function endLive(): void {
    if (live() !== 'off') ears.fall(null);
  }

  async function confirmLive(): Promise<void> {
    const open = source.live()?.open;
    if (live() !== 'asked' || !open) return;
    source.hush();
    stop();
    ears.closePath();
    const isMine = ears.ask();
    batch(() => {
      ears.setLevel(0);
      ears.setSilent(null);
      setLive('on');
    });
    try {
      // what the versions are matched by, if anything was hit yet
      const sound = await source.sound();
      if (!isMine()) return;
      const loop = sound && chooseLoop(sound, 'bar');
      if (sound && loop) setLooped({ sound, loop, matching: new Matching(loop, sound.offsetSamples) });
      const opened = await open(ears.events);
      if (!isMine()) return opened.close();
      ears.take(opened);
      opened.play(true);
    } catch (thrown) {
      if (isMine()) ears.failed(thrown);
    }
  }

  // what B starts at may turn one of the open mics up
  createEffect(on(start, () => void (untrack(live) === 'on' && ears.setLevel(0)), { defer: true }));
  createEffect(() => {
    if (!canLive() && untrack(live) !== 'off') untrack(() => ears.fall(null));
  });

  return {
    canLive,
    askLive: () => void (canLive() && live() === 'off' && setLive('asked')),
    confirmLive,
    endLive,
  };
}
