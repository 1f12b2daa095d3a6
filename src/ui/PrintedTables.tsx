/** The printed sheet's two tables. On a narrow screen each scrolls within its own box. */
import { For, type JSX, Show } from 'solid-js';
import type { MicrophoneRow, PairRow } from '../state/sheetWords';

function Table(props: { caption: string; heads: readonly string[]; name: string; children: JSX.Element }): JSX.Element {
  return (
    // the box scrolls, so the keyboard must reach it
    <section class="ho-wide" tabindex="0" aria-label={props.caption}>
      <table class={`ho-table ${props.name}`}>
        <caption>{props.caption}</caption>
        <thead>
          <tr>
            <For each={props.heads}>{(text) => <th scope="col">{text}</th>}</For>
          </tr>
        </thead>
        <tbody>{props.children}</tbody>
      </table>
    </section>
  );
}

const MICROPHONE_HEADS = ['In', 'Microphone', 'Drum, side', 'Polarity switch', 'Low-cut', 'Pad', 'Voicing'];

export function MicrophoneTable(props: { rows: readonly MicrophoneRow[]; rate: string }): JSX.Element {
  const heads = () => [
    ...MICROPHONE_HEADS,
    `Delay to the drum’s reference: ms (samples at ${props.rate}) ± 90 %`,
    'Note',
  ];
  return (
    <Table caption="Microphones" heads={heads()} name="ho-microphones">
      <For each={props.rows}>
        {(row) => (
          <tr>
            <td>{row.input}</td>
            <th scope="row">{row.label}</th>
            <td>{row.place}</td>
            <td classList={{ 'ho-set': row.polaritySwitch === 'inverted' }}>{row.polaritySwitch}</td>
            <td>{row.lowCut}</td>
            <td>{row.pad}</td>
            <td>{row.voicing}</td>
            <td class="ho-delays">
              <For each={row.delays} fallback="–">
                {(delay) => (
                  <span class="ho-delay">
                    {delay.drum} {delay.text}
                  </span>
                )}
              </For>
            </td>
            <td>{row.note}</td>
          </tr>
        )}
      </For>
    </Table>
  );
}

const PAIR_HEADS = [
  'A → B',
  'Drum, kind',
  'Polarity read',
  'Path: B is … ± 90 %',
  'Fuller, as switches stand',
  'Hits',
  'What was done',
  'Read, UTC',
  'Accepted',
];

export function PairTable(props: { rows: readonly PairRow[] }): JSX.Element {
  return (
    <Table caption="Pairs as last read" heads={PAIR_HEADS} name="ho-pairs">
      <For each={props.rows}>
        {(row) => (
          <tr>
            <th scope="row">
              {row.a} → {row.b}
            </th>
            <td>
              {row.drum}: {row.kind}
            </td>
            <td colspan={row.sure ? 1 : 2}>{row.polarity}</td>
            <Show when={row.sure}>
              <td>{row.path}</td>
            </Show>
            <td>{row.fuller}</td>
            <td>{row.hits}</td>
            <td>{row.done}</td>
            <td>{row.readAt}</td>
            <td>{row.accepted}</td>
          </tr>
        )}
      </For>
    </Table>
  );
}
