/** What is written down where a pair is left as it is: because the person wants it so, or because the plan isn't followed. */
import { type JSX, Show } from 'solid-js';

/** letters: a line of the sheet */
const NOTE_LENGTH = 200;

interface FormProps {
  question?: string;
  label: string;
  accept: string;
  cancel: string;
  onAccept(note: string): void;
  onCancel(): void;
  /** beside the two presses */
  children?: JSX.Element;
}

/** Enter in the field accepts, Escape goes back. */
function NoteForm(props: FormProps): JSX.Element {
  let field: HTMLInputElement | undefined;
  return (
    <form
      class="leave-form"
      onSubmit={(e) => {
        e.preventDefault();
        props.onAccept(field?.value.trim() ?? '');
      }}
      onKeyDown={(e) => {
        if (e.key === 'Escape') props.onCancel();
      }}
    >
      <Show when={props.question}>
        <p class="leave-question" id="asking" role="alert">
          {props.question}
        </p>
      </Show>
      <label class="field">
        <span>{props.label}</span>
        <input
          id="leave-note"
          type="text"
          maxlength={NOTE_LENGTH}
          size="28"
          ref={(it) => {
            field = it;
            queueMicrotask(() => it.focus());
          }}
        />
      </label>
      <button type="submit" class="press strong" data-command="leave-accept">
        {props.accept}
      </button>
      {props.children}
      <button type="button" class="press" data-command="leave-back" onClick={() => props.onCancel()}>
        {props.cancel}
      </button>
    </form>
  );
}

/** Left on purpose, as the person chose. */
export function LeaveForm(props: { onLeave(note: string): void; onCancel(): void }): JSX.Element {
  return (
    <NoteForm
      label="Reason"
      accept="Accept unchanged"
      cancel="Cancel"
      onAccept={props.onLeave}
      onCancel={props.onCancel}
    />
  );
}

interface AskProps {
  /** "The plan says invert Snare bottom. Accept it unchanged, on purpose?" */
  question: string;
  /** all that the plan says can be done in the mix as well */
  mayBeForMix: boolean;
  onAnyway(reason: string): void;
  onForMix(): void;
  onBack(): void;
}

/** Accepting against the plan asks once. */
export function AskForm(props: AskProps): JSX.Element {
  return (
    <NoteForm
      question={props.question}
      label="Reason"
      accept="Accept unchanged"
      cancel="Back"
      onAccept={props.onAnyway}
      onCancel={props.onBack}
    >
      <Show when={props.mayBeForMix}>
        <button type="button" class="press" data-command="leave-for-mix" onClick={() => props.onForMix()}>
          Do it in the mix
        </button>
      </Show>
    </NoteForm>
  );
}
