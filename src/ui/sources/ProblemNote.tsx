/** A problem as a sentence with what to do next, and the way to do it. */
import { type JSX, Show } from 'solid-js';
import { useApp } from '../shared/appScope';
import { ProblemMark } from '../shared/Marks';

export function ProblemNote(): JSX.Element {
  const { meter } = useApp();
  return (
    <div role="alert" class="problem-place">
      <Show when={meter.problem()}>
        {(problem) => (
          <div class="problem" data-problem={problem().code}>
            <ProblemMark />
            <p>{problem().text}</p>
            <Show when={meter.canRecover()}>
              <button type="button" class="press strong" data-command="recover" onClick={() => void meter.recover()}>
                {problem().code === 'worklet-fault' ? 'Start over' : 'Try again'}
              </button>
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
