/** Forgets what can't be had back: its key is held, or the press is confirmed in its place. */
import { createEffect, createSignal, type JSX, onCleanup, onMount, Show } from 'solid-js';
import { useApp } from './appScope';
import { Key } from './Key';
import { type Command, KEY_OF } from './keys';
import { leaveKeysToPage } from './ownKeys';

export function ForgetPress(props: {
  /** of the press, for tests and styles */
  command: string;
  /** whose key does the same when it is held; left out: no key */
  of?: Command;
  /** "Forget all hits?" */
  question: string;
  /** nothing would be lost: then nothing is asked */
  empty: boolean;
  title: string;
  onForget: () => void;
  children: JSX.Element;
}): JSX.Element {
  const { holding, settings } = useApp();
  const [asking, setAsking] = createSignal(false);
  let byKeyboard = false;
  let press: HTMLButtonElement | undefined;
  const filling = (): boolean => props.of !== undefined && holding() === props.of;
  // held meanwhile, or forgotten by another way: there is nothing left to ask
  createEffect(() => {
    if (props.empty || filling()) setAsking(false);
  });
  const done = (forget: boolean): void => {
    setAsking(false);
    press?.focus();
    if (forget) props.onForget();
  };
  return (
    <span class="forget" classList={{ asking: asking() }}>
      <button
        type="button"
        class="press"
        classList={{ filling: filling() }}
        data-command={props.command}
        aria-keyshortcuts={props.of && KEY_OF[props.of]}
        title={props.title}
        ref={press}
        // Enter or Space held down would press again and again
        onKeyDown={(e) => e.repeat && e.preventDefault()}
        onClick={(e) => {
          byKeyboard = e.detail === 0;
          if (!byKeyboard) leaveKeysToPage(e.currentTarget);
          if (props.empty) props.onForget();
          else setAsking(true);
        }}
      >
        <span>{props.children}</span>
        <Show when={props.of && settings.keysOn()}>
          <span class="key-held">
            hold <Key of={props.of as Command} />
          </span>
        </Show>
      </button>
      <Show when={asking()}>
        <Question text={props.question} onAnswer={done} />
      </Show>
    </span>
  );
}

function Question(props: { text: string; onAnswer: (yes: boolean) => void }): JSX.Element {
  let no: HTMLButtonElement | undefined;
  onMount(() => {
    no?.focus();
    const leave = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') props.onAnswer(false);
    };
    window.addEventListener('keydown', leave);
    onCleanup(() => window.removeEventListener('keydown', leave));
  });
  const answer =
    (yes: boolean) =>
    (event: MouseEvent): void => {
      // the second half of a double click was meant for what stood here before
      if (event.detail < 2) props.onAnswer(yes);
    };
  return (
    <fieldset
      class="question"
      aria-label={props.text}
      onKeyDown={(e) => e.repeat && (e.key === 'Enter' || e.key === ' ') && e.preventDefault()}
    >
      <b>{props.text}</b>
      <button type="button" class="press strong" data-command="forget-yes" onClick={answer(true)}>
        Yes
      </button>
      <button type="button" class="press" data-command="forget-no" ref={no} onClick={answer(false)}>
        No
      </button>
    </fieldset>
  );
}
