import type { Accessor } from 'solid-js';
import type { AskedPair } from '../../state/source/askedPair';
import { useApp } from '../shared/appScope';

/** What the kit sheet says of the pair in hand; null: none is in hand. */
export function useSheetPair(): Accessor<AskedPair | null> {
  const { parts } = useApp();
  return () => {
    const kit = parts.kit.here();
    const pair = kit?.round.pair();
    if (!kit || !pair) return null;
    const label = (id: string): string => kit.shelf.sheet()?.microphones.find((one) => one.id === id)?.label ?? '';
    return { kind: pair.kind, labels: [label(pair.a), label(pair.b)], drum: pair.drum };
  };
}
