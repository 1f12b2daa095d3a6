/** The round above the meter: what to patch, what was expected and read, what changed, and the presses that go on. */
import { For, type JSX, Show } from 'solid-js';
import { HANDS } from '../../advice/words/cautionWords';
import { labelOf } from '../../sheet/document/labels';
import type { Taken } from '../../sheet/document/model';
import { outcomeOf } from '../../sheet/pair/outcome';
import { isDrumOpen } from '../../state/meter/drumOpen';
import { type Feed, sinceText } from '../../state/round/roundWords';
import { clockText } from '../../text/clock';
import { plainLine, type SumLine } from '../../text/sum';
import { PairMark } from '../kit/PairMark';
import { useKit } from '../kit/useKit';
import { useApp } from '../shared/appScope';
import { PatchCautions } from '../shared/Cautions';
import { createFit } from '../shared/createFit';
import { ForgetPress } from '../shared/ForgetPress';
import { Press } from '../shared/Press';
import { SumSentence } from '../sums/SumSentence';
import { AskForm, LeaveForm } from './LeaveForms';
import { useRoundDanger, useRoundLine } from './roundLine';
import { roundSums } from './roundSums';

/** What the press says that is there, or brings it. */
const BROUGHT: Readonly<Record<Feed, string>> = {
  inputs: 'Patched',
  recording: 'Open its recording',
  example: 'Open its example',
  'opening-example': 'Open its example',
  'no-example': 'Open its example',
};
/** so many changes are shown above the meter: the kit's page has them all */
const CHANGES_SHOWN = 2;

export function RoundStrip(): JSX.Element {
  const { meter, startOver } = useApp();
  const { shelf, round, leaving, setLeaving } = useKit();
  const place = (): string => {
    const all = shelf.sheet()?.pairs ?? [];
    return `pair ${all.findIndex(({ id }) => id === round.pair()?.id) + 1} of ${all.length}`;
  };
  /** Nothing, while it is open which drum is meant. */
  const readNow = (): Taken | null => (isDrumOpen(meter) ? null : round.now());
  const since = (): string => {
    const read = readNow();
    return read?.sure && round.mode() === 'measure' ? sinceText(outcomeOf(round.first(), read)) : '';
  };
  const acceptText = (): string => {
    if (round.patching()) return BROUGHT[round.feed()];
    if (round.mode() === 'check') return 'OK, next';
    return 'Accept, next';
  };
  // on the other pages nothing is read of the pair yet
  const onMeter = (): boolean => meter.source() !== null && meter.page() === 'meter';
  const sure = (): boolean => readNow()?.sure ?? false;
  const roundLine = useRoundLine();
  const labelOfB = (): string => {
    const [sheet, pair] = [shelf.sheet(), round.pair()];
    return sheet && pair ? labelOf(sheet, pair.b) : '';
  };
  /** On the meter its name leads to how the number in it comes about. */
  const lineOf = (text: string, id: string, name: string): SumLine =>
    !round.patching() && onMeter() && roundSums(round).some((one) => one.id === id)
      ? { text, sums: [{ name, id }] }
      : plainLine(text);
  const danger = useRoundDanger();
  /** Several drums are heard: only a person knows which of them the sheet means. */
  const drumNote = (): string => {
    const drums = meter.reading()?.drums.length ?? 0;
    if (drums < 2 || round.now() === null) return '';
    const drum = round.pair()?.drum || 'right drum';
    if (round.mode() === 'measure' && isDrumOpen(meter))
      return `More than one drum is heard: have just the ${drum} hit, or choose it (key D).`;
    if (round.mode() === 'check')
      return round.whichDrum()
        ? `More than one drum is heard, and none matches the accepted reading: have just the ${drum} hit, or choose it (key D).`
        : '';
    return meter.reading()?.drumChosen
      ? `You chose the drum: check that it’s the ${drum}.`
      : `More than one drum is heard, and the meter picked one: check that it’s the ${drum}.`;
  };
  const changed = (): boolean => ['moved', 'polarity'].includes(round.compared()?.change ?? '');
  return (
    <Show when={round.pair()}>
      {(pair) => (
        <section
          class="round"
          aria-label="Round"
          data-pair={pair().id}
          data-mode={round.mode()}
          data-step={round.patching() ? 'patch' : 'listen'}
          data-sure={String(sure())}
        >
          <div class="round-text" ref={createFit}>
            <p class="round-title">
              <PairMark state={round.patching() ? 'patch' : sure() ? 'begun' : 'todo'} />
              <strong>{round.title()}</strong>
              <span class="quiet">
                {round.mode() === 'check' ? 'recheck, ' : ''}
                {place()}, drum: {pair().drum || 'any one'}
              </span>
            </p>
            <p class="round-say" id="round-verdict">
              <SumSentence line={lineOf(roundLine(), 'recheck', labelOfB())} />
            </p>
            <Show when={danger() === 'patch'}>
              <PatchCautions />
            </Show>
            <Show when={danger() === 'hands'}>
              <p class="hands-caution">{HANDS}</p>
            </Show>
            <Show when={since() !== ''}>
              <p class="round-since">
                <SumSentence line={lineOf(`Since the first reading: ${since()}.`, 'moved', 'B moved')} />
              </p>
            </Show>
            <Show when={drumNote() !== ''}>
              <p class="round-since">{drumNote()}</p>
            </Show>
            <p class="round-said" role="status">
              {round.said()}
            </p>
            <ul class="round-changes" aria-label="Changes during the reading" role="log">
              <For each={round.changes().slice(0, CHANGES_SHOWN)}>
                {(one) => (
                  <li>
                    <b>{clockText(one.at, new Date())}</b> {one.text}
                  </li>
                )}
              </For>
            </ul>
          </div>
          <Show
            when={!leaving() && round.asking() === null}
            fallback={
              <Show
                when={round.asking()}
                fallback={
                  <LeaveForm
                    onCancel={() => setLeaving(false)}
                    onLeave={(note) => {
                      setLeaving(false);
                      round.leaveOnPurpose(note);
                    }}
                  />
                }
              >
                {(question) => (
                  <AskForm
                    question={question()}
                    mayBeForMix={round.mayBeForMix()}
                    onAnyway={(reason) => round.acceptAnyway(reason)}
                    onForMix={() => round.acceptForMix()}
                    onBack={() => round.dontAccept()}
                  />
                )}
              </Show>
            }
          >
            <div class="round-presses">
              <Show when={onMeter() && !(round.patching() && round.feed() === 'no-example')}>
                <Press
                  of="accept"
                  strong
                  disabled={!round.patching() && !sure()}
                  onPress={() => round.enter()}
                  title="Puts the reading, and what was done, on the sheet"
                >
                  {acceptText()}
                </Press>
              </Show>
              <Show when={!round.patching() && onMeter()}>
                <Show when={round.mode() === 'measure'}>
                  <Press
                    of="b-inverted"
                    onPress={() => round.inverted('b')}
                    title="At its polarity switch: measure again"
                  >
                    I inverted B
                  </Press>
                  <Press
                    of="a-inverted"
                    onPress={() => round.inverted('a')}
                    title="At its polarity switch: measure again"
                  >
                    I inverted A
                  </Press>
                  <Press of="leave-so" onPress={() => setLeaving(true)} title="Accept unchanged and say why">
                    Leave on purpose
                  </Press>
                  <Show when={!sure()}>
                    <Press of="accept-unsure" onPress={() => round.acceptUnsure()}>
                      Accept as uncertain
                    </Press>
                  </Show>
                </Show>
                <Show when={round.mode() === 'check' && changed() && sure()}>
                  <button type="button" class="press" data-command="take-new" onClick={() => round.takeNew()}>
                    Use this from now on
                  </button>
                </Show>
              </Show>
              <Show when={!round.patching() && onMeter() && round.mode() === 'measure' && since() !== ''}>
                <ForgetPress
                  command="pair-anew"
                  question="Forget this pair’s readings?"
                  empty={false}
                  title="The first reading was wrong: forget it"
                  onForget={startOver}
                >
                  Start this pair over
                </ForgetPress>
              </Show>
              <Show when={['start', 'meter'].includes(meter.page())}>
                <Press of="put-off" onPress={() => round.putOff()}>
                  Put off
                </Press>
              </Show>
            </div>
          </Show>
        </section>
      )}
    </Show>
  );
}
