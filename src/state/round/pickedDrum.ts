/** Several drums are heard and the meter picked one: whether that is the pair's drum only a person knows, and is asked once. */
import { createEffect, createMemo, createSignal, on, untrack } from 'solid-js';
import type { RoundWorks } from './roundWorks';

/** a second Enter within this time is no answer, ms */
const READ_MS = 700;

export interface PickedDrum {
  /** it asks, and nothing is accepted yet; not a second time of the same hits. @returns whether it does */
  asks(): boolean;
}

/** To be called where effects have an owner. */
export function createPickedDrum({ meter, pair, hand, said, setSaid, clock }: RoundWorks): PickedDrum {
  const [asked, setAsked] = createSignal({ of: '', ms: 0, text: '' });
  /** What is asked about; empty: the drum is the only one, or chosen, or the sheet names none. */
  const of = createMemo((): string => {
    const [reading, present, read] = [meter.reading(), pair(), hand.shown.now()];
    if (!reading || !present || !read?.sure || present.drum === '') return '';
    return reading.drums.length < 2 || reading.drumChosen ? '' : `${present.id} ${read.run} ${reading.drum}`;
  });
  createEffect(on(of, () => untrack(said) === untrack(asked).text && setSaid(''), { defer: true }));
  return {
    asks() {
      const now = clock().getTime();
      if (of() === '' || (asked().of === of() && now - asked().ms >= READ_MS)) return false;
      if (asked().of === of()) return true;
      const text = `Were these hits the ${pair()?.drum}’s? If so, accept again; if not, choose the drum (key D).`;
      setAsked({ of: of(), ms: now, text });
      setSaid(text);
      return true;
    },
  };
}
