/** What the page shows of what is tried: figures once a hit and with every change, nothing forty times a second. */
import { type Accessor, createMemo, untrack } from 'solid-js';
import type { Alternative } from '../../advice/plan/alternatives';
import { type Spots, spotsOf } from '../../advice/tryOut/moveCurve';
import { type TriedSums, tryOut } from '../../advice/tryOut/tryOut';
import type { Reading } from '../../reading/reading';
import { haltOf, isHalted } from '../../state/meter/meterTypes';
import { sumKey } from '../../state/views/sumView';
import { useApp } from '../shared/appScope';
import { heldCall } from '../shared/heldWords';
import { HALT_WORDS, oldText } from '../shared/oldWords';

export interface Try {
  /** what is tried with; null: there is nothing to try, and `why` says the reason */
  reading: Accessor<Reading | null>;
  why: Accessor<string>;
  sums: Accessor<TriedSums | null>;
  spots: Accessor<Spots | null>;
  plan: Accessor<readonly Alternative[]>;
}

export function createTry(): Try {
  const app = useApp();
  const { meter, shown, trying, parts } = app;
  const why = (): string => {
    if (shown.patching()) return parts.kit.here()?.round.bring() ?? '';
    if (isHalted(meter.run()))
      return `${oldText(meter) || `No reading: ${HALT_WORDS[haltOf(meter)]}`}. Nothing can be tried until it goes on.`;
    const held = heldCall(app);
    if (held !== null) return `${held}.`;
    const said = shown.advice();
    if (said === null) return 'Waiting for signal.';
    return said.plan.length > 0 ? '' : said.text;
  };
  // readings come forty times a second, sums once a hit
  const key = createMemo(() => {
    const reading = shown.reading();
    if (reading === null || why() !== '') return '';
    return `${sumKey(reading, shown.advice())}|${JSON.stringify(meter.context())}`;
  });
  const reading = createMemo(() => (key() === '' ? null : untrack(shown.reading)));
  const context = () => untrack(meter.context);
  return {
    reading,
    why,
    sums: createMemo(() => {
      const now = reading();
      return now && tryOut(now, context(), trying.tried());
    }),
    spots: createMemo(() => {
      const now = reading();
      return now && spotsOf(now, context());
    }),
    plan: () => shown.advice()?.plan ?? [],
  };
}
