/** What readings of the pair in hand belong to: a reading counts only while all of it is still so. */
import { type Accessor, createMemo, createSignal } from 'solid-js';
import type { Pair } from '../../sheet/document/model';
import type { TakenWith } from '../../sheet/pair/taken';
import type { PairReadingOptions } from './pairOptions';

/** The meter at work on the pair, from one beginning to the next. */
export interface Run {
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

/** What isn't as it was when the run was begun; empty: nothing. */
export type Outdated = '' | 'pair' | 'inputs' | 'switches';

/** letters of what is read from */
const MOST_SOURCE = 100;

export interface RunInHand {
  run: Accessor<Run | null>;
  outdated: Accessor<Outdated>;
  begin(of: Pair): void;
  end(): void;
  /** what is noted with a reading of it */
  given(run: Run): TakenWith;
}

/** "example: Snare, top & bottom", "take1.wav", the interface’s name */
function sourceOf({ source, sourceLabel }: Pick<PairReadingOptions['meter'], 'source' | 'sourceLabel'>): string {
  const name = sourceLabel().slice(0, MOST_SOURCE);
  return source()?.type === 'demo' && name !== '' ? `example: ${name}` : name;
}

export function createRun({ meter, shelf, settings, pair, initials, clock }: PairReadingOptions): RunInHand {
  const [run, setRun] = createSignal<Run | null>(null);
  let runs = 0;
  const iso = (): string => clock().toISOString();
  const isInverted = (id: string): boolean =>
    shelf.sheet()?.microphones.find((one) => one.id === id)?.inverted ?? false;
  const outdated = createMemo((): Outdated => {
    const [present, begun] = [pair(), run()];
    if (!present || !begun) return '';
    const same = begun.pair === present.id && begun.a === present.a && begun.b === present.b;
    if (!same || begun.drum !== present.drum) return 'pair';
    if (begun.swapped !== meter.swapped() || begun.offsetSamples !== meter.offsetSamples()) return 'inputs';
    return begun.aInverted !== isInverted(present.a) || begun.bInverted !== isInverted(present.b) ? 'switches' : '';
  });
  return {
    run,
    outdated,
    begin({ id, a, b, drum }) {
      setRun({
        id: `${iso()}/${++runs}`,
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
    end: () => void setRun(null),
    given: (begun) => ({
      takenAt: iso(),
      run: begun.id,
      initials: initials(),
      source: sourceOf(meter),
      kind: pair()?.kind ?? settings.kind(),
      temperatureC: settings.temperatureC(),
      aInverted: begun.aInverted,
      bInverted: begun.bInverted,
      meterInvert: meter.invertB(),
      // a scene's A is the pair's A whatever is swapped; of microphones a person says which is which
      shown: meter.advice(),
      turned: meter.source()?.type === 'demo' && begun.swapped,
    }),
  };
}
