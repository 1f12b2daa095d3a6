/** Each band's level, now and as tried. */
import { For, type JSX, Show } from 'solid-js';
import type { TriedLevel } from '../../advice/tryOut/tryOut';
import { gainColumn, noLevelText, nowColumn, triedColumn } from '../../advice/words/tryWords';
import { BANDS } from '../../reading/bands';
import { bandText } from '../../text/frequency';
import { SumPress } from '../shared/SumPress';
import type { Try } from './createTry';

export function TryBands(props: { it: Try }): JSX.Element {
  const rows = (): { name: string; hz: string; level: TriedLevel }[] => {
    const sums = props.it.sums();
    const sum = props.it.reading()?.sum;
    if (!sums || !sum) return [];
    const { fullerLowHz: low, fullerHighHz: high } = sum;
    return [
      { name: 'Low octave', hz: low === null || high === null ? '' : bandText(low, high), level: sums.low },
      { name: 'Overall', hz: '', level: sums.all },
      ...BANDS.map(({ lowHz, highHz }, i) => ({
        name: bandText(lowHz, highHz),
        hz: '',
        level: sums.bands[i] as TriedLevel,
      })),
    ];
  };
  const note = (): string => {
    const sums = props.it.sums();
    return sums ? noLevelText(sums) : '';
  };
  return (
    <table class="try-bands">
      <caption>dB re one mic alone; a trim’s own loudness doesn’t count</caption>
      <thead>
        <tr>
          <th scope="col">Band</th>
          <th scope="col">now</th>
          <th scope="col">tried</th>
          <th scope="col">gain</th>
        </tr>
      </thead>
      <tbody>
        <For each={rows()}>
          {({ name, hz, level }, n) => (
            <tr>
              <th scope="row">
                <SumPress of={`try-${n()}`}>{name}</SumPress> <span class="quiet">{hz}</span>
              </th>
              <td>{nowColumn(level)}</td>
              <td>{triedColumn(level)}</td>
              <td>
                <b>{gainColumn(level)}</b>
              </td>
            </tr>
          )}
        </For>
      </tbody>
      <Show when={note()}>
        <tfoot>
          <tr>
            <td colspan="4">{note()}</td>
          </tr>
        </tfoot>
      </Show>
    </table>
  );
}
