/** A pair of a take on the meter: the same hits, the same answer, with all that the meter shows of one. */
import { type Accessor, createSignal } from 'solid-js';
import type { CutPair, FromPairWorker } from '../../audio/take/pairMessages';
import { saysTheSame } from '../../sheet/tracks/holding';
import type { PairReport } from '../../take/model';
import { stemOf } from '../../take/names';
import { givenFrames, type ReadPair, takeSecondsAt } from '../../take/pairs/readWhole';
import { hitsText } from '../../text/count';
import { capital } from '../../text/sentence';
import type { Meter } from '../meter/meterTypes';
import type { TakeSource } from '../source/sourceDoor';
import type { Take } from './take';

export interface PairView {
  /** the meter would say of it what the take does */
  canOpen(drum: string, pair: PairReport): boolean;
  open(drum: string, pair: PairReport): Promise<void>;
  /** the one that was opened last; null: none was */
  last: Accessor<string | null>;
  /** its hits are being fetched */
  opening: Accessor<boolean>;
  /** why it couldn't be opened, one sentence; empty: nothing went wrong */
  problem: Accessor<string>;
}

export type CutTakePair = (asked: CutPair) => Promise<FromPairWorker>;

export interface PairViewOptions {
  take: Take;
  meter: Pick<Meter, 'open'>;
  cutPair: CutTakePair;
  /** no pair of the kit sheet is in hand any more: what is read now isn't of it */
  stopRound(): void;
}

/** Names a pair of a take. */
export const pairKey = (drum: string, { a, b }: Pick<PairReport, 'a' | 'b'>): string => JSON.stringify([drum, a, b]);

export function createPairView({ take, meter, cutPair, stopRound }: PairViewOptions): PairView {
  const [last, setLast] = createSignal<string | null>(null);
  const [opening, setOpening] = createSignal(false);
  const [problem, setProblem] = createSignal('');
  const wholeOf = (drum: string, { a, b }: PairReport): ReadPair | undefined =>
    take.pairs().find((one) => one.drum === drum && one.a === a && one.b === b);

  return {
    last,
    opening,
    problem,
    canOpen(drum, pair) {
      const whole = wholeOf(drum, pair);
      return whole !== undefined && saysTheSame(pair, whole.reading);
    },
    async open(drum, pair) {
      const whole = wholeOf(drum, pair);
      if (!whole || opening()) return;
      setProblem('');
      setOpening(true);
      const { a, b, places } = whole;
      const of = take.readAt();
      const cut = await cutPair({ files: [...take.files()], told: take.told(), a, b, places });
      setOpening(false);
      // another take was read meanwhile
      if (of !== take.readAt()) return;
      if (cut.type === 'failed') return void setProblem(cut.text);
      setLast(pairKey(drum, pair));
      stopRound();
      await meter.open(sourceOf(whole, cut));
    },
  };
}

function sourceOf(
  { drum, a, b, kind, maxLagMs, places }: ReadPair,
  cut: Extract<FromPairWorker, { type: 'cut' }>,
): TakeSource {
  const labels = [stemOf(a), stemOf(b)] as const;
  return {
    type: 'take',
    sound: {
      label: `${capital(drum)}: ${labels.join(' – ')}, ${hitsText(places.hits.length)} of the take`,
      sampleRate: places.sampleRate,
      a: cut.a,
      b: cut.b,
      given: givenFrames(places),
      maxLagMs,
    },
    pair: { kind, labels, drum },
    takeSeconds: (streamSeconds) => takeSecondsAt(places, streamSeconds),
  };
}
