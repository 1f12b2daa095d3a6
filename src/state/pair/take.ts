/** What readings of the pair in hand belong to: a reading counts only while all of it is still so. */
import { type Accessor, createMemo, createSignal } from 'solid-js';
import type { Pair } from '../../sheet/document/model';
import type { TakenWith } from '../../sheet/pair/taken';
import type { PairReadingOptions } from './pairOptions';

/** From one beginning to the next. */
export interface Take {
  /** of the sheet's readings: the same hits */
  id: string;
  pair: string;
  a: string;
  b: string;
  drum: string;
  aInverted: boolean;
  bInverted: boolean;
  swapped: boolean;
  /** input offset taken out */
  offsetSamples: number;
}

/** What isn't as it was when the take was begun; empty: nothing. */
export type Outdated = '' | 'pair' | 'inputs' | 'switches';

export interface TakeInHand {
  take: Accessor<Take | null>;
  outdated: Accessor<Outdated>;
  begin(of: Pair): void;
  end(): void;
  /** what is noted with a reading of it */
  given(take: Take): TakenWith;
}

export function createTake({ meter, shelf, settings, pair, initials, clock }: PairReadingOptions): TakeInHand {
  const [take, setTake] = createSignal<Take | null>(null);
  let takes = 0;
  const iso = (): string => clock().toISOString();
  const isInverted = (id: string): boolean =>
    shelf.sheet()?.microphones.find((one) => one.id === id)?.inverted ?? false;
  const outdated = createMemo((): Outdated => {
    const [present, begun] = [pair(), take()];
    if (!present || !begun) return '';
    const same = begun.pair === present.id && begun.a === present.a && begun.b === present.b;
    if (!same || begun.drum !== present.drum) return 'pair';
    if (begun.swapped !== meter.swapped() || begun.offsetSamples !== meter.offsetSamples()) return 'inputs';
    return begun.aInverted !== isInverted(present.a) || begun.bInverted !== isInverted(present.b) ? 'switches' : '';
  });
  return {
    take,
    outdated,
    begin({ id, a, b, drum }) {
      setTake({
        id: `${iso()}/${++takes}`,
        pair: id,
        a,
        b,
        drum,
        aInverted: isInverted(a),
        bInverted: isInverted(b),
        swapped: meter.swapped(),
        offsetSamples: meter.offsetSamples(),
      });
    },
    end: () => void setTake(null),
    given: (begun) => ({
      takenAt: iso(),
      take: begun.id,
      initials: initials(),
      temperatureC: settings.temperatureC(),
      aInverted: begun.aInverted,
      bInverted: begun.bInverted,
      meterInvert: meter.invertB(),
      // a scene's A is the pair's A whatever is swapped; of microphones a person says which is which
      turned: meter.source()?.type === 'demo' && begun.swapped,
    }),
  };
}
