/** A short sentence about what the meter did by itself; it goes after a while. */
import { type Accessor, createSignal } from 'solid-js';
import { capital } from '../../text/sentence';

/** ms */
const STAYS_MS = 8000;

export interface Notice {
  text: Accessor<string>;
  say(text: string): void;
  /** called often: takes down what has stood long enough */
  age(): void;
  clear(): void;
}

export function createNotice(nowMs: () => number): Notice {
  const [text, setText] = createSignal('');
  let untilMs = 0;
  return {
    text,
    say(next) {
      untilMs = nowMs() + STAYS_MS;
      setText(capital(next));
    },
    age() {
      if (nowMs() > untilMs) setText('');
    },
    clear: () => void setText(''),
  };
}
