/** The take's part of the page, fetched when a take is first opened: it is kept from then on, whatever page is up. */
import type { Kit } from '../../state/kit';
import { createPairView, type PairViewOptions } from '../../state/take/pairView';
import { createTake, type TakeOptions } from '../../state/take/take';
import { createTakeSheet } from '../../state/take/takeSheet';
import { TakePage } from './TakePage';
import type { TakePart } from './takePart';
import './take.css';

export interface OpenTakeOptions extends TakeOptions, Pick<PairViewOptions, 'meter' | 'cutPair'> {
  /** null: it isn't here yet */
  kit(): Pick<Kit, 'shelf' | 'round'> | null;
  newId(): string;
}

export function openTake(options: OpenTakeOptions): TakePart {
  const take = createTake(options);
  const ofSheet = createTakeSheet({ ...options, take });
  const view = createPairView({ ...options, take, stopRound: () => options.kit()?.round.stop() });
  return { take, TakePage: () => <TakePage take={take} ofSheet={ofSheet} view={view} /> };
}
