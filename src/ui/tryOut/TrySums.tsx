/** The sums behind what is tried. */
import type { JSX } from 'solid-js';
import { trySums } from '../../advice/sums/trySums';
import { useApp } from '../shared/appScope';
import { giveFocusBack } from '../shared/holdFocus';
import { SumsPanel } from '../sums/SumsPanel';
import type { Try } from './createTry';

export function TrySums(props: { it: Try }): JSX.Element {
  const { meter, trying } = useApp();
  giveFocusBack();
  const sums = () => {
    const reading = props.it.reading();
    return reading === null ? [] : trySums(reading, meter.context(), trying.tried());
  };
  return <SumsPanel sums={sums()} />;
}
