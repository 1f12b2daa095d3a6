/** A problem as a sentence with what to do next, and the way to do it. */
import { type JSX, Show } from 'solid-js';
import { useApp } from './app';

export function ProblemNote(): JSX.Element {
  const { meter } = useApp();
  const stopped = (): boolean => meter.run() === 'stopped';
  return (
    <div role="alert" class="problem-place">
      <Show when={meter.problem()}>
        {(problem) => (
          <div class="problem" data-problem={problem().code}>
            <svg class="problem-mark" viewBox="0 0 40 40" aria-hidden="true">
              <path class="mark-line" d="M20 4 L37 35 H3Z" />
              <path class="mark-thick" d="M20 15V24M20 29V30" />
            </svg>
            <p>{problem().text}</p>
            <Show when={stopped() && meter.source()}>
              <Show
                when={problem().code === 'worklet-fault'}
                fallback={
                  <button type="button" class="press strong" data-command="reopen" onClick={() => void meter.reopen()}>
                    Try again
                  </button>
                }
              >
                <button type="button" class="press strong" data-command="restart" onClick={() => meter.startOver()}>
                  Start over
                </button>
              </Show>
            </Show>
            <Show when={meter.source() && meter.page() === 'meter'}>
              <button type="button" class="press" data-command="leave" onClick={() => void meter.leave()}>
                Choose another source
              </button>
            </Show>
            <button type="button" class="press" data-command="dismiss" onClick={() => meter.dismissProblem()}>
              Close this note
            </button>
          </div>
        )}
      </Show>
    </div>
  );
}
