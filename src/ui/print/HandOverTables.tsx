/** The printed sheet's two tables. On a narrow screen each scrolls within its own box. */
import { For, type JSX, Show } from 'solid-js';
import type { MicrophoneRow } from '../../sheet/print/handOver';
import type { PairRow } from '../../sheet/print/handOverPairs';
import { NO_VALUE } from '../../text/number';
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

type Setting = 'lowCut' | 'pad' | 'contour';

const SETTINGS: readonly (readonly [Setting, string])[] = [
  ['lowCut', 'Low-cut'],
  ['pad', 'Pad'],
  ['contour', 'Contour'],
];

const WHOLE_KIT = 'whole kit';

/** "(kick, front)": drum and side as far as the name doesn't say them already; empty: it says both. */
function beyond({ label, place }: MicrophoneRow): string {
  const words = label.toLowerCase();
  const parts = place.split(', ').filter((part, _, all) => part !== WHOLE_KIT || all.length === 1);
  const more = parts.filter((part) => !words.includes(part.toLowerCase()));
  return more.length > 0 ? `(${more.join(', ')})` : '';
}

/** Without settings and notes there is room beside it. */
export const isSlim = (rows: readonly MicrophoneRow[]): boolean =>
  rows.every(({ lowCut, pad, contour, note }) => [lowCut, pad, contour, note].every((text) => text === NO_VALUE));

/** A column that says nothing of any mic is left out. */
export function MicrophoneTable(props: { rows: readonly MicrophoneRow[] }): JSX.Element {
  const settings = () => SETTINGS.filter(([key]) => props.rows.some((row) => row[key] !== NO_VALUE));
  const noted = (): boolean => props.rows.some(({ note }) => note !== NO_VALUE);
  const heads = () => [
    'In',
    'Mic (drum, side)',
    'Switch',
    ...settings().map(([, head]) => head),
    'Delay, ms (samples) ±',
    ...(noted() ? ['Note'] : []),
  ];
  return (
    <Table caption="Mics and polarity switches as set" heads={heads()} name="ho-microphones">
      <For each={props.rows}>
        {(row) => (
          <>
            <tr>
              <td>{row.input}</td>
              <th scope="row">
                {row.label} <span class="ho-place">{beyond(row)}</span>
              </th>
              <td classList={{ 'ho-set': row.polaritySwitch === 'inverted' }}>{row.polaritySwitch}</td>
              <For each={settings()}>{([key]) => <td>{row[key]}</td>}</For>
              <td class="ho-delays">
                <For each={row.delays} fallback="–">
                  {(delay) => (
                    <span class="ho-delay">
                      {delay.drum} {delay.text}
                    </span>
                  )}
                </For>
              </td>
              <Show when={noted()}>
                <td>{shortOr(row.note)}</td>
              </Show>
            </tr>
            <More of={`${row.label}, note`} text={row.note} columns={heads().length} />
          </>
        )}
      </For>
    </Table>
  );
}

/** A pair of which only that is to be told has no second line: the head says so. */
const SETTLED = 'In the mix: nothing left to do.';

const PAIR_HEADS = ['A → B', 'Drum, kind', 'Polarity', 'B’s path, ± for 90 %', 'Hits', 'Time', 'OK'];

export function PairTable(props: { rows: readonly PairRow[] }): JSX.Element {
  return (
    <Table
      caption="Pairs as last measured, and what’s left to do in the mix: nothing where no line follows. OK: accepted"
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
            <Show when={row.line !== SETTLED}>
              <tr class="ho-line">
                <td colspan={PAIR_HEADS.length}>
                  <Unbroken text={row.line} />
                </td>
              </tr>
            </Show>
          </>
        )}
      </For>
    </Table>
  );
}
