/** The first pushes of the hits used, as pictures, while the meter is looked at. */
import { type Accessor, createEffect, createMemo, onCleanup, untrack } from 'solid-js';
import { answerOf } from '../../reading/reading';
import { type PushesView, pushesView, pushWindow } from '../../state/views/pushesView';
import type { PushWindow } from '../../state/views/whyView';
import { useApp } from '../shared/appScope';

/** The meter makes pictures until the caller's owner goes, and not while the page that tells why looks at its own. */
export function createPushes(): Accessor<PushesView | null> {
  const { meter, shown, over } = useApp();
  let window: PushWindow | null = null;
  let gone = false;
  createEffect(() => {
    const reading = shown.reading();
    const invertB = meter.invertB() !== meter.switchedB();
    if (over() === 'why' || document.hidden) return;
    const delay = reading && answerOf(reading).delaySamples;
    window = reading && pushWindow(delay === null ? null : (delay / reading.sampleRate) * 1000, window);
    const pushes = window;
    // the other page lets go of its own first
    queueMicrotask(() => {
      if (gone || over() === 'why') return;
      const look = pushes && { aligned: false, serial: 0, near: false, invertB, pushes };
      meter.look(reading, look);
    });
  });
  onCleanup(() => {
    gone = true;
    meter.look(null, null);
  });
  // readings come forty times a second, pictures and answers once a hit
  const key = createMemo(() => {
    const reading = shown.reading();
    return reading === null ? '' : `${reading.drum}|${answerOf(reading).delaySamples}|${answerOf(reading).reason}`;
  });
  return createMemo<PushesView | null>((last) => {
    key();
    const pictures = meter.pictures();
    // while another page looks, what was drawn stands
    if (pictures !== null && pictures.wish.alignSamples !== 0) return last;
    return pushesView(pictures, untrack(shown.reading));
  }, null);
}
