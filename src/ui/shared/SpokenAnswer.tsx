/** What a screen reader is told: the answer, once, when it has changed. */
import { createEffect, createSignal, type JSX, onCleanup } from 'solid-js';
import { useApp } from './appScope';
import { heldCall } from './heldWords';

/** not more often than this, ms */
const SAY_EVERY_MS = 4000;
/** what was told is taken away after this time, ms: its counts of hits are soon those of before */
const TOLD_MS = 3000;
/** an answer that is gone again sooner isn't said, ms */
const STANDS_MS = 500;

export function SpokenAnswer(): JSX.Element {
  const app = useApp();
  const { shown, parts } = app;
  const [said, setSaid] = createSignal({ what: '', text: '' });
  const bring = (): string => parts.kit.here()?.round.bring() ?? '';
  const held = (): string | null => heldCall(app);
  const what = (): string => (shown.patching() ? bring() : (held() ?? shown.advice()?.text ?? ''));
  let timer: ReturnType<typeof setTimeout> | undefined;
  let wipe: ReturnType<typeof setTimeout> | undefined;
  let lastMs = Number.NEGATIVE_INFINITY;
  const say = (): void => {
    timer = undefined;
    // how many hits agree changes with every hit: that alone is no news
    if (what() === '' || what() === said().what) return;
    lastMs = performance.now();
    const sureness = shown.patching() || held() !== null ? '' : (shown.advice()?.sureness ?? '');
    setSaid({ what: what(), text: `${what()} ${sureness}`.trim() });
    clearTimeout(wipe);
    wipe = setTimeout(() => setSaid(({ what }) => ({ what, text: '' })), TOLD_MS);
  };
  createEffect(() => {
    what();
    if (timer !== undefined) return;
    timer = setTimeout(say, Math.max(STANDS_MS, lastMs + SAY_EVERY_MS - performance.now()));
  });
  onCleanup(() => {
    clearTimeout(timer);
    clearTimeout(wipe);
  });
  return (
    <p class="unseen" aria-live="polite" aria-atomic="true" id="spoken-advice">
      {said().text}
    </p>
  );
}
