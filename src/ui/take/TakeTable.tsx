/** Every microphone with every drum, each against the drum's own microphone: how its first push goes, how far, and what to do. */
import { For, type JSX, Show } from 'solid-js';
import type { PairView } from '../../state/take/pairView';
import type { Take } from '../../state/take/take';
import type { DrumReport, PairReport } from '../../take/model';
import { stemOf } from '../../take/names';
import { headOf } from '../../take/report/untold';
import { LEFT_OUT } from '../../take/told/told';
import { capital } from '../../text/sentence';
import { PairPress } from './PairPress';
import { laterText, toDo } from './takeText';

export function TakeTable(props: { take: Take; view: PairView; isTogether: boolean }): JSX.Element {
  // what is left out has no row
  const files = (): string[] => {
    const named = new Set(props.take.report()?.tracks.flatMap(({ file, state }) => (state === LEFT_OUT ? [] : [file])));
    for (const { pairs } of props.take.drums()) for (const { a, b } of pairs) named.add(a).add(b);
    return [...named].sort((p, q) => p.localeCompare(q, 'en', { numeric: true }));
  };
  return (
    <section class="take-all" aria-labelledby="take-all">
      <p id="take-all" class="quiet">
        Each pair by itself; press one to see it on the meter.
        {props.isTogether ? ' What serves them all together stands above.' : ''}
      </p>
      <div class="take-wide">
        <table class="take-table" aria-labelledby="take-all">
          <thead>
            <tr>
              <th scope="col">Track</th>
              <For each={props.take.drums()}>
                {(drum) => (
                  <th scope="col">
                    <button
                      type="button"
                      class="press"
                      data-drum={drum.drum}
                      aria-expanded={props.take.open() === drum.drum}
                      onClick={() => props.take.setOpen(props.take.open() === drum.drum ? null : drum.drum)}
                    >
                      {capital(drum.drum)}
                    </button>
                  </th>
                )}
              </For>
            </tr>
          </thead>
          <tbody>
            <For each={files()}>
              {(file) => (
                <tr>
                  <th scope="row" title={file}>
                    {stemOf(file)}
                  </th>
                  <For each={props.take.drums()}>
                    {(drum) => <Cell take={props.take} view={props.view} drum={drum} file={file} />}
                  </For>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </div>
    </section>
  );
}

function Cell(props: { take: Take; view: PairView; drum: DrumReport; file: string }): JSX.Element {
  const head = (): string | null => headOf(props.drum);
  const pair = (): PairReport | undefined => props.drum.pairs.find(({ a, b }) => a === head() && b === props.file);
  return (
    <Show
      when={head() !== props.file}
      fallback={<td class="take-own">{props.drum.ownTrack === props.file ? 'its own mic' : 'compared with'}</td>}
    >
      <Show when={pair()} fallback={<td class="take-none">–</td>}>
        {(it) => (
          <td data-state={it().state} data-polarity={it().polarity ?? ''} data-delay={it().delaySamples ?? ''}>
            <PairPress
              view={props.view}
              drum={props.drum.drum}
              pair={it()}
              instead={() => props.take.setOpen(props.drum.drum)}
            >
              <Show when={it().state === 'measured'} fallback={<span>can’t tell</span>}>
                <b class="take-polarity">{it().polarity === 'inverted' ? '▲▼ inverted' : '▲▲ same'}</b>
                <span>{laterText(it().pathCm)}</span>
                <Show when={it().from === 'others'}>
                  <span class="quiet" title={it().reason}>
                    from other tracks
                  </span>
                </Show>
                <Show when={toDo(it())}>{(text) => <span class="take-do">{text()}</span>}</Show>
              </Show>
            </PairPress>
          </td>
        )}
      </Show>
    </Show>
  );
}
