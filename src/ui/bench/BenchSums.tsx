/** The sums behind the bench’s figures. */
import type { JSX } from 'solid-js';
import type { Teaching } from '../../state/teaching/teaching';
import { benchSums } from '../../teaching/words/benchSums';
import { giveFocusBack } from '../shared/holdFocus';
import { SumsPanel } from '../sums/SumsPanel';

export function BenchSums(props: { teaching: Teaching }): JSX.Element {
  giveFocusBack();
  return <SumsPanel sums={benchSums(props.teaching.bench(), props.teaching.figures())} />;
}
