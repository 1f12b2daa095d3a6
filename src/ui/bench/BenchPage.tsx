/** The teaching bench: one drawing, one curve, one row of figures, the lesson’s step. */
import { createSignal, type JSX, Show } from 'solid-js';
import type { BenchSoundOptions } from '../../state/teaching/benchSound';
import type { Teaching } from '../../state/teaching/teaching';
import { useApp } from '../shared/appScope';
import { BenchControls } from './BenchControls';
import { BenchSound } from './BenchSound';
import { BenchSums } from './BenchSums';
import { ArrivalPicture } from './drawn/ArrivalPicture';
import { BenchDrawing } from './drawn/BenchDrawing';
import { CombPicture } from './drawn/CombPicture';
import { FigureRow } from './FigureRow';
import { LessonChoice, LessonPanel } from './LessonPanel';

export interface BenchPageProps {
  teaching: Teaching;
  sound: Omit<BenchSoundOptions, 'teaching'>;
}

export function BenchPage(props: BenchPageProps): JSX.Element {
  const { meter, sum } = useApp();
  const [heard, setHeard] = createSignal(false);
  return (
    <main class="bench" data-drum={props.teaching.bench().drum}>
      <div class="bench-top">
        <h1>Teaching bench</h1>
        <LessonChoice teaching={props.teaching} />
        <button
          type="button"
          class="press"
          data-command="hear-bench"
          aria-expanded={heard()}
          onClick={() => setHeard(!heard())}
        >
          Hear it
        </button>
        <button type="button" class="press" data-command="leave" onClick={() => void meter.leave()}>
          Back to the first page
        </button>
      </div>
      <FigureRow teaching={props.teaching} />
      <div class="bench-left">
        <BenchDrawing teaching={props.teaching} />
        <BenchControls teaching={props.teaching} />
      </div>
      <div class="bench-right">
        <div class="bench-plots">
          <ArrivalPicture teaching={props.teaching} />
          <CombPicture teaching={props.teaching} />
        </div>
        <LessonPanel teaching={props.teaching} />
      </div>
      <Show when={sum() !== null}>
        <BenchSums teaching={props.teaching} />
      </Show>
      <Show when={heard()}>
        <BenchSound {...props.sound} teaching={props.teaching} />
      </Show>
    </main>
  );
}
