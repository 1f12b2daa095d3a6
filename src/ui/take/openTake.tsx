/** The take's part of the page, fetched when a take is first opened: it is kept from then on, whatever page is up. */
import { createTake, type TakeOptions } from '../../state/take/take';
import { createTakeSheet, type TakeSheetOptions } from '../../state/take/takeSheet';
import { TakePage } from './TakePage';
import type { TakePart } from './takePart';
import './take.css';

export function openTake(options: TakeOptions & Omit<TakeSheetOptions, 'take'>): TakePart {
  const take = createTake(options);
  const ofSheet = createTakeSheet({ ...options, take });
  return { take, TakePage: () => <TakePage take={take} ofSheet={ofSheet} /> };
}
