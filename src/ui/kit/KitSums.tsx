/** The sums behind the sheet’s numbers: of the pair, the mic or the drum whose number is asked for. */
import { createMemo, type JSX } from 'solid-js';
import type { KitSheet } from '../../sheet/document/model';
import { type KitSystem, kitSystem } from '../../sheet/kit/kitSystem';
import { allSheetSums, sheetSums } from '../../sheet/sums/sheetSums';
import { useApp } from '../shared/appScope';
import { giveFocusBack } from '../shared/holdFocus';
import { SumsPanel } from '../sums/SumsPanel';

/** @param props.system null: the whole kit isn’t worked out */
export function KitSums(props: { sheet: KitSheet; system: KitSystem | null }): JSX.Element {
  const { sum } = useApp();
  giveFocusBack();
  const told = createMemo(() => sheetSums(props.sheet, props.system, sum() ?? '', new Date()));
  return <SumsPanel sums={told()?.sums ?? []} of={told()?.of ?? ''} />;
}

/** Of all its numbers at once, for the page that is the paper itself. */
export function AllKitSums(props: { sheet: KitSheet }): JSX.Element {
  giveFocusBack();
  return <SumsPanel sums={allSheetSums(props.sheet, kitSystem(props.sheet), new Date())} />;
}
