/** The kit as one system: each drum's delays and doubts, the switches, the groups, and which drum decides. */
import { createMemo, For, Index, type JSX, Show } from 'solid-js';
import { addMissing, setFollows, setReference } from '../../sheet/document/edits';
import { labelOf, pairTitle } from '../../sheet/document/labels';
import type { KitSheet } from '../../sheet/document/model';
import type { DrumSystem } from '../../sheet/kit/drumSystem';
import type { HandOver } from '../../sheet/print/handOver';
import { groupLines } from '../../sheet/print/handOverMix';
import { sumIdOf } from '../../sheet/sums/sumPlace';
import { counted, samplesFigure } from '../../text/count';
import { rateText } from '../../text/frequency';
import { microphoneName, sheetDrumName } from '../../text/names';
import { dataNumber } from '../../text/number';
import { plainLine, type SumLine } from '../../text/sum';
import { accuracyMsColumn, msFigure } from '../../text/time';
import { SumPress } from '../shared/SumPress';
import { SumSentence } from '../sums/SumSentence';
import { Fold } from './Fold';
import { useKit } from './useKit';

const WHY_NEXT = {
  again: 'again: this drum’s readings don’t add up, and this is the least certain of them',
  joins: 'no reading links these two yet',
  checks: 'not cross-checked yet',
} as const;

function Drum(props: { sheet: KitSheet; drum: DrumSystem }): JSX.Element {
  const { shelf, round } = useKit();
  const known = (): boolean => props.drum.delays.filter(({ delayMs }) => delayMs !== null).length > 1;
  const next = () => {
    const it = props.drum.next;
    const pair = it && props.sheet.pairs.find(({ id }) => id === it.pair);
    return it && pair ? { pair, why: it.why } : null;
  };
  return (
    <section class="drum-part" aria-label={sheetDrumName(props.drum.drum)} data-drum={props.drum.drum}>
      <h3>{sheetDrumName(props.drum.drum)}</h3>
      <label class="field">
        <span>Delays relative to</span>
        <select
          value={props.drum.reference ?? ''}
          onChange={(e) => {
            const microphone = e.currentTarget.value;
            shelf.change((sheet) => setReference(sheet, props.drum.drum, microphone));
          }}
        >
          <For each={props.drum.delays}>
            {({ microphone }) => <option value={microphone}>{labelOf(props.sheet, microphone)}</option>}
          </For>
        </select>
      </label>
      <Show when={known()} fallback={<p class="quiet">No delays yet.</p>}>
        <div class="kit-scroll">
          <table class="kit-table delays">
            <thead>
              <tr>
                <th scope="col">Mic</th>
                <th scope="col">Delay</th>
                <th scope="col">at the session’s {rateText(props.sheet.sampleRate)}</th>
                <th scope="col">90 %</th>
              </tr>
            </thead>
            <tbody>
              <For each={props.drum.delays}>
                {(one) => (
                  <tr data-microphone={one.microphone} data-delay-ms={dataNumber(one.delayMs)}>
                    <th scope="row">
                      <Show
                        when={one.microphone !== props.drum.reference && one.delayMs !== null}
                        fallback={labelOf(props.sheet, one.microphone)}
                      >
                        <SumPress of={sumIdOf({ kind: 'drum', of: props.drum.drum, number: one.microphone })}>
                          {labelOf(props.sheet, one.microphone)}
                        </SumPress>
                      </Show>
                    </th>
                    <td>{one.microphone === props.drum.reference ? 'reference' : msFigure(one.delayMs)}</td>
                    <td>
                      {one.microphone === props.drum.reference || one.delayMs === null
                        ? ''
                        : samplesFigure((one.delayMs / 1000) * props.sheet.sampleRate)}
                    </td>
                    <td>
                      {one.microphone === props.drum.reference || one.uncertaintyMs === null
                        ? ''
                        : `${accuracyMsColumn(one.uncertaintyMs)} ms`}
                    </td>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </div>
      </Show>
      <Show when={next()}>
        {(it) => (
          <p>
            <button type="button" class="press small" onClick={() => round.begin(it().pair.id)}>
              Measure {pairTitle(props.sheet, it().pair)}
            </button>{' '}
            <span class="quiet">{WHY_NEXT[it().why]}</span>
          </p>
        )}
      </Show>
    </section>
  );
}

function Sentences(props: { title: string; list: readonly SumLine[] }): JSX.Element {
  return (
    <Show when={props.list.length > 0}>
      <h3>{props.title}</h3>
      <ul class="sentences">
        <For each={props.list}>
          {(line) => (
            <li>
              <SumSentence line={line} />
            </li>
          )}
        </For>
      </ul>
    </Show>
  );
}

function Follows(props: { sheet: KitSheet }): JSX.Element {
  const { shelf } = useKit();
  const wide = () => props.sheet.microphones.filter(({ drum }) => drum === '');
  const drums = () => [...new Set(props.sheet.pairs.map(({ drum }) => drum))];
  const of = (id: string): string => props.sheet.follows.find(({ microphone }) => microphone === id)?.drum ?? '';
  return (
    <Show when={wide().length > 0}>
      <h3>Which drum decides for a mic on the whole kit</h3>
      <p class="quiet">
        A mic on the whole kit can only be right for one drum. Delays and first pushes from different drums are never
        combined.
      </p>
      <div class="presses">
        <For each={wide()}>
          {(one) => (
            <label class="field">
              <span>{microphoneName(one.label)}</span>
              <select
                value={of(one.id)}
                onChange={(e) => {
                  const drum = e.currentTarget.value;
                  shelf.change((sheet) => setFollows(sheet, one.id, drum === '' ? null : drum));
                }}
              >
                <option value="">all drums count</option>
                <For each={drums().filter((drum) => drum !== '')}>{(drum) => <option value={drum}>{drum}</option>}</For>
              </select>
            </label>
          )}
        </For>
      </div>
    </Show>
  );
}

export function KitTogether(props: { said: HandOver }): JSX.Element {
  const { shelf, round } = useKit();
  const groups = createMemo((): SumLine[] => {
    const system = round.system();
    return system ? groupLines(system) : [];
  });
  // what isn't on the round yet: the others are only not read
  const gaps = () => {
    const sheet = shelf.sheet();
    if (!sheet) return [];
    return (round.system()?.groups ?? []).flatMap(({ drum, missing }) => {
      const count = addMissing(sheet, drum, missing).pairs.length - sheet.pairs.length;
      return count > 0 ? [{ drum, missing, count }] : [];
    });
  };
  return (
    <Show when={shelf.sheet()}>
      {(sheet) => (
        <Fold id="together" title="The whole kit" note="drum by drum, with reasons">
          <Sentences title="Invert" list={props.said.inTheMix.invert.map(plainLine)} />
          <Sentences title="Later in the mix" list={props.said.inTheMix.delay.map(plainLine)} />
          <Sentences title="Compromises" list={props.said.inTheMix.pays.map(plainLine)} />
          <Sentences title="Several mics on one drum" list={groups()} />
          <For each={gaps()}>
            {(group) => (
              <button
                type="button"
                class="press small"
                data-command="add-missing"
                onClick={() => shelf.change((kit) => addMissing(kit, group.drum, group.missing))}
              >
                Add the {counted(group.count, 'missing pair')} of the {group.drum} to the round
              </button>
            )}
          </For>
          <Follows sheet={sheet()} />
          <div class="kit-drums">
            <Index each={round.system()?.drums ?? []}>{(drum) => <Drum sheet={sheet()} drum={drum()} />}</Index>
          </div>
        </Fold>
      )}
    </Show>
  );
}
