/** The sums behind a take’s numbers. */
import { createMemo, type JSX } from 'solid-js';
import type { Take } from '../../state/take/take';
import type { TakeSheet } from '../../state/take/takeSheet';
import { takeSums } from '../../state/take/takeSums';
import { useApp } from '../shared/appScope';
import { giveFocusBack } from '../shared/holdFocus';
import { SumsPanel } from '../sums/SumsPanel';

export function TakeSums(props: { take: Take; ofSheet: TakeSheet }): JSX.Element {
  const { sum } = useApp();
  giveFocusBack();
  const told = createMemo(() => takeSums(props.take, props.ofSheet.readings(), sum() ?? '', new Date()));
  return <SumsPanel sums={told()?.sums ?? []} of={told()?.of ?? ''} />;
}
