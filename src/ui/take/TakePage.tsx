/** A whole take: what is wrong with it, then every microphone with every drum. */
import { createMemo, For, type JSX, Match, onMount, Show, Switch } from 'solid-js';
import { togetherLines } from '../../sheet/print/takeTogether';
import type { PairView } from '../../state/take/pairView';
import type { Take } from '../../state/take/take';
import type { TakeSheet } from '../../state/take/takeSheet';
import { faultSumId } from '../../state/take/takeSums';
import type { Fault, TakeReport } from '../../take/model';
import { stemOf } from '../../take/names';
import { hasFewHits, untoldDrums } from '../../take/report/untold';
import { LEFT_OUT, MOST_TRACKS, type Told } from '../../take/told/told';
import { counted, hitsText } from '../../text/count';
import { percentText } from '../../text/number';
import { capital, listText } from '../../text/sentence';
import type { SumLine } from '../../text/sum';
import { AllTogether } from '../kit/AllTogether';
import { useApp } from '../shared/appScope';
import { SumSentence } from '../sums/SumSentence';
import { toPairOpenedLast } from './PairPress';
import { TakeDrum } from './TakeDrum';
import { TakeFiles } from './TakeFiles';
import { TakeSums } from './TakeSums';
import { TakeTable } from './TakeTable';
import { TakeToSheet } from './TakeToSheet';
import { TakeTracks } from './TakeTracks';

export function TakePage(props: { take: Take; ofSheet: TakeSheet; view: PairView }): JSX.Element {
  const { meter, sum } = useApp();
  const { take, ofSheet, view } = props;
  onMount(() => toPairOpenedLast(view));
  const together = createMemo(() => {
    const [read, said] = [ofSheet.readings(), ofSheet.together()];
    const lines = read && said && togetherLines(read, said);
    // nothing holds together: no heading over nothing
    return lines && lines.sentences.length + lines.doubts.length > 0 ? lines : null;
  });
  return (
    <main class="take" data-take={take.fate()}>
      <h1>A whole take</h1>
      <Switch>
        <Match when={take.fate() === 'none'}>
          <p class="lead">
            Hit each drum eight times, one drum after the other, and record all mics. Drop the tracks here: every pair
            is read from the same hits.
          </p>
        </Match>
        <Match when={take.fate() === 'reading'}>
          <div class="take-progress">
            <label class="field">
              <span>{take.progress().doing}</span>
              <progress max="1" value={take.progress().share} />
              <span class="quiet">{percentText(take.progress().share)}</span>
            </label>
            <button type="button" class="press" data-command="cancel-take" onClick={() => take.cancel()}>
              Cancel
            </button>
          </div>
        </Match>
        <Match when={take.fate() === 'cancelled'}>
          <p role="status">Cancelled. The files are still chosen.</p>
        </Match>
        <Match when={take.fate() === 'failed'}>
          <p class="take-failed" role="alert">
            {take.problem()}
          </p>
        </Match>
      </Switch>
      <Show when={take.tracks().length > 0}>
        <TakeTracks take={take} ofSheet={ofSheet} />
      </Show>
      <Show when={take.report()}>{(report) => <Wrong take={report()} told={take.told()} />}</Show>
      <Show when={together()}>{(said) => <AllTogether sentences={said().sentences} doubts={said().doubts} />}</Show>
      <Show when={take.report()}>
        <TakeToSheet take={take} ofSheet={ofSheet} />
      </Show>
      <Show when={view.problem() !== ''}>
        <p class="take-failed" role="alert" data-pair-problem>
          {view.problem()}
        </p>
      </Show>
      <Show when={take.drums().length > 0}>
        <TakeTable take={take} view={view} isTogether={together() !== null} />
        <For each={take.drums()}>
          {(drum) => (
            <Show when={take.open() === drum.drum}>
              <TakeDrum drum={drum} ofSheet={ofSheet} view={view} />
            </Show>
          )}
        </For>
      </Show>
      <div class="presses">
        <TakeFiles take={take} />
        <Show when={take.fate() === 'cancelled' || take.fate() === 'failed'}>
          <button type="button" class="press" data-command="again-take" onClick={() => take.again()}>
            Read them again
          </button>
        </Show>
        <button type="button" class="press" data-command="leave-take" onClick={() => meter.go('start')}>
          Back to the first page
        </button>
      </div>
      <p class="quiet">WAV or FLAC, one file a mic or all in one. The files stay on this computer, unchanged.</p>
      <Show when={sum() !== null}>
        <TakeSums take={take} ofSheet={ofSheet} />
      </Show>
    </main>
  );
}

/** Its track's name leads to how its number comes about. */
function faultLine(fault: Fault): SumLine {
  const id = faultSumId(fault);
  const [name = ''] = fault.files;
  return { text: fault.text, sums: id === null ? [] : [{ name, id }] };
}

/** What is wrong, most harmful first. */
function Wrong(props: { take: TakeReport; told: Told }): JSX.Element {
  const unread = () => props.take.tracks.filter(({ state }) => state === 'unreadable');
  /** beyond the most that are read */
  const notRead = (): string[] =>
    props.take.tracks
      .filter(({ file, state }) => state === LEFT_OUT && props.told.get(file) !== LEFT_OUT)
      .map(({ file }) => stemOf(file));
  const few = () => props.take.drums.filter(hasFewHits);
  const untold = () => untoldDrums(props.take);
  const wrong = (): number => props.take.faults.length + unread().length;
  const head = (): string => {
    if (wrong() > 0) return counted(wrong(), 'thing wrong', 'things wrong');
    return untold().length > 0 ? `Can’t tell: ${listText(untold().map(({ drum }) => drum))}` : 'Nothing wrong found';
  };
  return (
    <section class="take-wrong" aria-labelledby="take-wrong">
      <h2 id="take-wrong">{head()}</h2>
      <ol>
        <For each={props.take.faults}>
          {(fault) => (
            <li data-fault={fault.kind}>
              <SumSentence line={faultLine(fault)} />
            </li>
          )}
        </For>
        <For each={unread()}>
          {(track) => (
            <li data-fault="unreadable">
              {track.file}: {track.reason}
            </li>
          )}
        </For>
      </ol>
      <For each={untold()}>
        {({ drum, reason }) => (
          <p data-untold={drum}>
            {capital(drum)}: can’t tell. {reason}
          </p>
        )}
      </For>
      <Show when={few().length > 0}>
        <p data-few>
          Record again, eight hits alone each:{' '}
          {few()
            .map(({ drum, hitsUsable }) => `${drum} (${hitsText(hitsUsable)})`)
            .join(', ')}
          .
        </p>
      </Show>
      <Show when={notRead().length > 0}>
        <p data-too-many>
          {MOST_TRACKS} tracks are read at most. Not read: {listText(notRead())}. Leave others out to have these read.
        </p>
      </Show>
    </section>
  );
}
