/** The sums behind the meter’s numbers. */
import type { JSX } from 'solid-js';
import { sumsOf } from '../../advice/sums/sums';
import type { Sum } from '../../text/sum';
import { useApp } from '../shared/appScope';
import { SumsPanel } from './SumsPanel';

export function MeterSums(): JSX.Element {
  const { meter, shown, parts } = useApp();
  const sums = (): Sum[] => {
    const reading = shown.reading();
    return reading === null
      ? []
      : [...sumsOf(reading, shown.advice(), meter.context()), ...(parts.kit.here()?.roundSums() ?? [])];
  };
  return <SumsPanel sums={sums()} />;
}
