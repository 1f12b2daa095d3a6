/** The printed sheet's two tables. On a narrow screen each scrolls within its own box. */
import { For, type JSX, Show } from 'solid-js';
import { type MicrophoneRow, SUM_REFERENCE } from '../../sheet/print/handOver';
import type { PairRow } from '../../sheet/print/handOverPairs';
import { Unbroken } from '../shared/Unbroken';

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

/** Longer text than this has the paper's width, below its row: in its column it would fill pages. */
const LONG = 80;

function More(props: { of: string; text: string; columns: number }): JSX.Element {
  return (
    <Show when={props.text.length > LONG}>
      <tr class="ho-more">
        <td colspan={props.columns}>
          {props.of}: {props.text}
        </td>
      </tr>
    </Show>
  );
}

const shortOr = (text: string): string => (text.length > LONG ? 'see below' : text);

const MICROPHONE_HEADS = ['In', 'Mic', 'Drum, side', 'Switch', 'Low-cut', 'Pad', 'Contour'];

export function MicrophoneTable(props: { rows: readonly MicrophoneRow[]; rate: string }): JSX.Element {
  const heads = () => [...MICROPHONE_HEADS, `Delay to reference, ms (samples at ${props.rate}) ± 90 %`, 'Note'];
  return (
    <Table caption="Mics and polarity switches as set" heads={heads()} name="ho-microphones">
      <For each={props.rows}>
        {(row) => (
          <>
            <tr>
              <td>{row.input}</td>
              <th scope="row">{row.label}</th>
              <td>{row.place}</td>
              <td classList={{ 'ho-set': row.polaritySwitch === 'inverted' }}>{row.polaritySwitch}</td>
              <td>{row.lowCut}</td>
              <td>{row.pad}</td>
              <td>{row.contour}</td>
              <td class="ho-delays">
                <For each={row.delays} fallback="–">
                  {(delay) => (
                    <span class="ho-delay">
                      {delay.drum} {delay.text}
                    </span>
                  )}
                </For>
              </td>
              <td>{shortOr(row.note)}</td>
            </tr>
            <More of={`${row.label}, note`} text={row.note} columns={heads().length} />
          </>
        )}
      </For>
    </Table>
  );
}

const PAIR_HEADS = ['A → B', 'Drum, kind', 'Polarity', 'B’s path ± 90 %', 'Hits', 'UTC', 'OK'];

export function PairTable(props: { rows: readonly PairRow[] }): JSX.Element {
  return (
    <Table
      caption={`Pairs as last measured, and what’s left to do; OK = accepted. Gains: ${SUM_REFERENCE}`}
      heads={PAIR_HEADS}
      name="ho-pairs"
    >
      <For each={props.rows}>
        {(row) => (
          <>
            <tr>
              <th scope="row">
                {row.a} → {row.b}
              </th>
              <td>
                {row.drum}: {row.kind}
              </td>
              <td colspan={row.sure ? 1 : 2}>{shortOr(row.polarity)}</td>
              <Show when={row.sure}>
                <td>
                  <Unbroken text={row.path} />
                </td>
              </Show>
              <td class="ho-nowrap">{row.hits}</td>
              <td>{row.readAt}</td>
              <td class="ho-nowrap">{row.accepted}</td>
            </tr>
            <More of={`${row.a} → ${row.b}, polarity`} text={row.polarity} columns={PAIR_HEADS.length} />
            <tr class="ho-line">
              <td colspan={PAIR_HEADS.length}>
                <Unbroken text={row.line} />
              </td>
            </tr>
          </>
        )}
      </For>
    </Table>
  );
}
