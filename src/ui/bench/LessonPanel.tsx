/** The lesson in hand: one step, whether the bench shows it done, and at the end what was learned. */
import { createMemo, For, type JSX, Show } from 'solid-js';
import type { Teaching } from '../../state/teaching/teaching';
import { LESSON_IDS, type LessonId } from '../../teaching/lessons/lesson';
import { LESSONS } from '../../teaching/lessons/lessons';
import { isOver, type LessonRun, type StepFate } from '../../teaching/progress';
import { LESSON_WORDS } from '../../teaching/words/lessonWords';
import type { StepWords } from '../../teaching/words/lessonWordsTypes';

const FATE_WORDS: Readonly<Record<StepFate, string>> = { open: 'to do', done: 'done', skipped: 'skipped' };

export function LessonPanel(props: { teaching: Teaching }): JSX.Element {
  return (
    <section class="bench-lesson" aria-label="Lesson">
      <Show when={props.teaching.run()} fallback={<NoLesson />}>
        {(run) => <Running run={run()} teaching={props.teaching} />}
      </Show>
    </section>
  );
}

function NoLesson(): JSX.Element {
  return (
    <p class="bench-todo">
      Move a mic, press a switch, and watch the pushes and the notches. Or choose a lesson above: about two minutes
      each.
    </p>
  );
}

/** All lessons; what was gone through in this session is marked. */
export function LessonChoice(props: { teaching: Teaching }): JSX.Element {
  const { run, finished, begin, leaveLesson } = props.teaching;
  const mark = (id: LessonId): string => {
    const fate = finished().get(id);
    return fate === undefined ? '' : ` (${fate === 'done' ? 'done' : 'steps skipped'})`;
  };
  return (
    <label class="field bench-choice">
      <span>Lesson</span>
      <select
        data-control="lesson"
        value={run()?.lesson ?? ''}
        onChange={(e) => {
          const id = LESSON_IDS.find((one) => one === e.currentTarget.value);
          if (id) begin(id);
          else leaveLesson();
        }}
      >
        <option value="">none: the free bench</option>
        <For each={LESSON_IDS}>
          {(id, i) => (
            <option value={id}>
              {i() + 1} · {LESSON_WORDS[id].title}
              {mark(id)}
            </option>
          )}
        </For>
      </select>
    </label>
  );
}

function Running(props: { run: LessonRun; teaching: Teaching }): JSX.Element {
  const lesson = () => LESSONS[props.run.lesson];
  const words = () => LESSON_WORDS[props.run.lesson];
  const fate = (): StepFate => props.run.fates[props.run.at] ?? 'done';
  let text: HTMLDivElement | undefined;
  /** the press goes or is shut then: whoever has no mouse goes on from what is to be done next */
  const go = (act: () => void): void => {
    act();
    text?.focus();
  };
  const step = createMemo((): StepWords | undefined => words().steps[lesson().steps[props.run.at]?.id ?? '']);
  return (
    <div data-lesson={props.run.lesson} data-step={props.run.at} data-fate={isOver(props.run) ? 'over' : fate()}>
      <ol class="bench-steps" aria-label="Steps">
        <For each={props.run.fates}>
          {(one, i) => (
            <li
              data-fate={one}
              aria-current={i() === props.run.at ? 'step' : undefined}
              title={`Step ${i() + 1}: ${FATE_WORDS[one]}`}
            >
              <span aria-hidden="true">{one === 'done' ? '✓' : one === 'skipped' ? '–' : i() + 1}</span>
              <span class="unseen">
                Step {i() + 1}: {FATE_WORDS[one]}
              </span>
            </li>
          )}
        </For>
      </ol>
      <div class="bench-step-text" role="status" tabindex="-1" ref={text}>
        <Show when={step()} fallback={<Learned run={props.run} />}>
          {(it) => (
            <>
              <p class="bench-todo" classList={{ 'is-done': fate() === 'done' }}>
                {it().todo}
              </p>
              <Show when={fate() === 'done'}>
                <p class="bench-seen">
                  <b>Done.</b> {it().seen}
                </p>
              </Show>
            </>
          )}
        </Show>
      </div>
      <div class="presses">
        <Show
          when={!isOver(props.run)}
          fallback={
            <button
              type="button"
              class="press"
              data-command="lesson-again"
              onClick={() => go(() => props.teaching.begin(props.run.lesson))}
            >
              Do it again
            </button>
          }
        >
          <button
            type="button"
            class="press strong"
            data-command="next-step"
            disabled={fate() === 'open'}
            onClick={() => go(props.teaching.next)}
          >
            {props.run.at + 1 < props.run.fates.length ? 'Next step' : 'What was learned'}
          </button>
          <Show when={fate() === 'open'}>
            <button type="button" class="press" data-command="skip-step" onClick={() => go(props.teaching.skip)}>
              Skip this step
            </button>
          </Show>
        </Show>
      </div>
    </div>
  );
}

function Learned(props: { run: LessonRun }): JSX.Element {
  const words = () => LESSON_WORDS[props.run.lesson];
  const skipped = (): number => props.run.fates.filter((fate) => fate === 'skipped').length;
  return (
    <>
      <p class="bench-learned">{words().learned}</p>
      <Show when={skipped() > 0}>
        <p>
          {skipped()} of {props.run.fates.length} steps skipped.
        </p>
      </Show>
      <ul class="bench-facts">
        <For each={words().facts}>
          {(fact) => (
            <li>
              {fact.text} <small>({fact.source})</small>
            </li>
          )}
        </For>
      </ul>
    </>
  );
}
