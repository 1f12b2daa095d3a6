/** A problem as a sentence with what to do next, and the way to do it. */
import { type JSX, Show } from 'solid-js';
import { useApp } from '../shared/appScope';
import { ProblemMark } from '../shared/Marks';
import { shortText, type Told } from '../shared/oldWords';
import './problem.css';

export function ProblemNote(): JSX.Element {
  const { meter } = useApp();
  return (
    <div role="alert" class="problem-place">
      <Show when={meter.problem()}>
        {(problem) => (
          <div class="problem" data-problem={problem().code}>
            <ProblemMark />
            <p>{problem().text}</p>
            <TryAgain problem={problem()} />
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
      <Show when={meter.aside()}>
        {(problem) => (
          <div class="problem problem-aside" data-aside={problem().code}>
            <ProblemMark />
            <p>{shortText(problem())}</p>
            <TryAgain problem={problem()} />
          </div>
        )}
      </Show>
    </div>
  );
}

/** The way out of what can be got out of. */
export function TryAgain(props: { problem: Told }): JSX.Element {
  const { meter } = useApp();
  return (
    <Show when={meter.canRecover()}>
      <button type="button" class="press strong" data-command="recover" onClick={() => void meter.recover()}>
        {props.problem.code === 'worklet-fault' ? 'Start over' : 'Try again'}
      </button>
    </Show>
  );
}
