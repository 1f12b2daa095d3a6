/** The printed sheet's two tables. On a narrow screen each scrolls within its own box. */
import { For, type JSX, Show } from 'solid-js';
import type { HandOver, MicrophoneRow } from '../../sheet/print/handOver';
import type { PairRow } from '../../sheet/print/handOverPairs';
import { NO_VALUE } from '../../text/number';
import { capital } from '../../text/sentence';
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
  const said = (part: string): boolean => words.includes(part) || (part === 'above' && words.includes('overhead'));
  const more = parts.filter((part) => !said(part.toLowerCase()));
  return more.length > 0 ? `(${more.join(', ')})` : '';
}

/** Letters beside a row of the table, and beside its head. */
const BESIDE = { row: 55, head: 330 };

/** Without settings and notes there is room beside it, for as much as is about as high. */
export function isSlim({ microphones, inTheMix: { invert, delay, pays, groups }, doubts }: HandOver): boolean {
  const letters = [invert, delay, pays, groups, doubts].flat().join(' ').length;
  return (
    letters <= BESIDE.head + BESIDE.row * microphones.length &&
    microphones.every(({ lowCut, pad, contour, note }) =>
      [lowCut, pad, contour, note].every((text) => text === NO_VALUE),
    )
  );
}

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
                <For each={row.delays.filter(({ text }) => text !== NO_VALUE)} fallback={NO_VALUE}>
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

/** What the head of its column says already. */
const SETTLED = 'In the mix: nothing left to do.';

/** Two lines of its column; of more the paper's width is made use of, below its row. */
const SHORT = 76;
const IN_THE_MIX = 'In the mix: ';

/** What was done and what is left, as short as the column's head allows. */
function lineOf({ line }: PairRow): string {
  if (line === SETTLED) return 'Nothing left to do.';
  if (line.startsWith(IN_THE_MIX)) return capital(line.slice(IN_THE_MIX.length));
  return line.endsWith(SETTLED) ? line.slice(0, -SETTLED.length).trimEnd() : line;
}

/** @param props.all every pair of the sheet was measured */
export function PairTable(props: { rows: readonly PairRow[]; all: boolean }): JSX.Element {
  /** said of each only where it isn't so of all */
  const told = (): boolean => props.rows.some(({ accepted }) => accepted === 'no');
  const heads = () => [
    'A → B (drum)',
    'Polarity',
    'B’s path, ± for 90\u00a0%',
    'Agree',
    'Time',
    ...(told() ? ['Accepted'] : []),
    'Done; left to do in the mix',
  ];
  return (
    <Table
      caption={`Pairs as last measured${told() ? '' : props.all ? ', all accepted' : ', all of these accepted'}`}
      heads={heads()}
      name={`ho-pairs ${told() ? 'ho-told' : ''}`}
    >
      <For each={props.rows}>
        {(row) => (
          <>
            <tr>
              <th scope="row">
                {row.a} → {row.b} ({row.drum})
              </th>
              <td colspan={row.sure ? 1 : 2}>{shortOr(row.polarity)}</td>
              <Show when={row.sure}>
                <td>
                  <Unbroken text={row.path} />
                </td>
              </Show>
              <td class="ho-nowrap" data-head="Agree:">
                {row.hits}
              </td>
              <td class="ho-time">{row.readAt}</td>
              <Show when={told()}>
                <td data-head="Accepted:">{row.accepted}</td>
              </Show>
              <td>{lineOf(row).length > SHORT ? 'see below' : lineOf(row)}</td>
            </tr>
            <More of={`${row.a} → ${row.b}, polarity`} text={row.polarity} columns={heads().length} />
            <Show when={lineOf(row).length > SHORT}>
              <tr class="ho-line">
                <td colspan={heads().length}>
                  <Unbroken text={lineOf(row)} />
                </td>
              </tr>
            </Show>
          </>
        )}
      </For>
    </Table>
  );
}
