/** By ear first: hear a pair, say what it is, then see. Ten of them, and a score with what guessing would get. */
import { createSignal, For, type JSX, Show } from 'solid-js';
import type { ByEar } from '../../state/byEar/byEar';
import type { SoundSource } from '../../state/listen/soundSource';
import { ANSWERS, LARGEST_ROUND, QUESTIONS, type Question } from '../../teaching/byEar/round';
import { ListenStrip } from '../listen/ListenStrip';
import { useApp } from '../shared/appScope';
import { stepOut } from '../shared/ownKeys';
import { ANSWER_WORDS, questionText, revealText } from './byEarWords';
import { Score } from './Score';
import { SeenSums } from './SeenSums';

export function ByEarPage(props: { byEar: ByEar; source: SoundSource; newRound: () => number }): JSX.Element {
  const { meter } = useApp();
  const { byEar } = props;
  return (
    <main class="by-ear" data-at={byEar.at()} data-round={byEar.round()}>
      <div class="by-ear-top">
        <h1>By ear first</h1>
        <RoundNumber byEar={byEar} newRound={props.newRound} />
        <button type="button" class="press" data-command="leave" onClick={() => void meter.leave()}>
          Back to the first page
        </button>
      </div>
      <Show
        when={byEar.question()}
        fallback={
          <Show when={byEar.questions().length > 0} fallback={<p role="status">The example kit is being loaded.</p>}>
            <p class="by-ear-asks" role="status">
              That was the round.
            </p>
          </Show>
        }
      >
        {(question) => <Asked byEar={byEar} question={question()} source={props.source} />}
      </Show>
      <Score byEar={byEar} />
    </main>
  );
}

function Asked(props: { byEar: ByEar; question: Question; source: SoundSource }): JSX.Element {
  const { settings } = useApp();
  const { byEar } = props;
  const isRight = (): boolean => byEar.said() === props.question.truth;
  return (
    <>
      <section class="by-ear-asked" aria-labelledby="by-ear-asks" data-kind={props.question.kind}>
        <p class="by-ear-place">
          {byEar.at() + 1} of {QUESTIONS} · {props.question.pair.title}
        </p>
        <h2 class="by-ear-asks" id="by-ear-asks">
          {questionText(props.question)}
        </h2>
        <ListenStrip source={props.source} versions={byEar.versions()} blind={byEar.said() === null} />
        <div class="by-ear-answers">
          <For each={ANSWERS[props.question.kind]}>
            {(answer) => (
              <button
                type="button"
                class="press big"
                data-answer={answer}
                aria-pressed={byEar.said() === answer}
                disabled={byEar.said() !== null}
                onClick={() => byEar.answer(answer)}
              >
                {ANSWER_WORDS[answer]}
              </button>
            )}
          </For>
          <Show when={byEar.said() !== null}>
            <button type="button" class="press strong big" data-command="next" onClick={() => byEar.next()}>
              {byEar.at() + 1 < QUESTIONS ? 'Next pair' : 'To the score'}
            </button>
          </Show>
        </div>
        <p class="by-ear-seen" role="status">
          <Show when={byEar.said() !== null} fallback="Play it, switch between A alone, B alone and A+B, then say.">
            <b>{isRight() ? '✓ Right. ' : '✗ No. '}</b>
            {revealText(props.question, settings.temperatureC())}
          </Show>
        </p>
      </section>
      <Show when={byEar.said() !== null}>
        <SeenSums question={props.question} />
      </Show>
    </>
  );
}

function RoundNumber(props: { byEar: ByEar; newRound: () => number }): JSX.Element {
  const [wrong, setWrong] = createSignal(false);
  const { byEar } = props;
  return (
    <div class="by-ear-round">
      <label class="field">
        <span>Blind round</span>
        <input
          id="round-number"
          type="text"
          inputmode="numeric"
          size="5"
          value={byEar.round()}
          aria-invalid={wrong()}
          aria-describedby="round-note"
          onChange={(e) => {
            const number = Number(e.currentTarget.value.trim());
            setWrong(number !== byEar.round() && !byEar.begin(number));
            e.currentTarget.value = String(byEar.round());
          }}
          onKeyDown={(e) => {
            if (e.key === 'Enter') stepOut(e.currentTarget);
          }}
        />
      </label>
      <button
        type="button"
        class="press"
        data-command="new-round"
        onClick={() => {
          setWrong(false);
          byEar.begin(props.newRound());
        }}
      >
        New blind round
      </button>
      <span id="round-note" class="field-note">
        {wrong()
          ? `Can’t use that: enter a whole number from 1 to ${LARGEST_ROUND}.`
          : 'The same number gives everybody the same pairs.'}
      </span>
    </div>
  );
}
