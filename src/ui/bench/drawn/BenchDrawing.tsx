/** The drum from the side and the two mics, to be dragged; the way from the place hit to each capsule, with its length on it. */
import { createEffect, createMemo, createSignal, For, type JSX, on, Show } from 'solid-js';
import type { Teaching } from '../../../state/teaching/teaching';
import { capsuleAt, hitPlace } from '../../../teaching/bench/drums';
import { MIC_IDS, type MicId } from '../../../teaching/bench/model';
import { headWords, micName, micPlaceWords, pushWords } from '../../../teaching/words/benchWords';
import { lengthFigure } from '../../../text/length';
import { createRoom } from '../../shared/createRoom';
import { createBenchMoves } from './createBenchMoves';
import { createSlowHit } from './createSlowHit';
import { DrumShapes } from './DrumShapes';
import { MicShape } from './MicShape';
import { lengthPlace } from './micPlaces';
import { at, scaleOf } from './scale';

/** the head's arrow, cm */
const HEAD_ARROW_CM = 7;

export function BenchDrawing(props: { teaching: Teaching }): JSX.Element {
  const { bench, figures } = props.teaching;
  const room = createRoom({ width: 620, height: 400 });
  const scale = createMemo(() => scaleOf(bench().drum, room.size()));
  const moves = createBenchMoves(props.teaching, () => scale().perCm);
  /** what the slow hit showed is told until another drum is hit; it follows what is moved meanwhile */
  const [told, setTold] = createSignal(false);
  const slow = createSlowHit(() => {
    setTold(true);
    props.teaching.watched();
  });
  const shown = createMemo(() => [props.teaching.run()?.lesson, bench().drum, bench().hit].join());
  createEffect(
    on(
      shown,
      () => {
        slow.clear();
        setTold(false);
      },
      { defer: true },
    ),
  );
  const hit = () => at(scale(), hitPlace(bench()).at);
  const capsule = (mic: MicId) => at(scale(), capsuleAt(bench(), bench()[mic]));
  const reached = (mic: MicId): boolean => (slow.reachCm() ?? -1) >= figures()[mic].pathCm;
  const headSentence = (): string => `The head goes ${MIC_IDS.map(headPart).join('; ')}.`;
  const headPart = (mic: MicId): string =>
    `${headWords(bench(), mic)}: first push ${pushWords(figures()[mic].push)}${bench()[mic].inverted ? ', inverted by its switch' : ''}`;
  const label = (mic: MicId) => lengthPlace(bench(), mic, scale());
  const headArrow = (): string => {
    const { towards } = hitPlace(bench());
    const size = HEAD_ARROW_CM * Math.max(scale().perCm, 3);
    const [x, y] = [-towards.xCm, towards.yCm];
    const tip = { x: hit().x + x * size, y: hit().y + y * size };
    const [side, back] = [0.28 * size, 0.34 * size];
    return `M${hit().x} ${hit().y}L${tip.x} ${tip.y}M${tip.x - x * back - y * side} ${tip.y - y * back - x * side}L${tip.x} ${tip.y}L${
      tip.x - x * back + y * side
    } ${tip.y - y * back + x * side}`;
  };
  return (
    <section class="bench-drawing" aria-label="Drum and mics, seen from the side">
      <div class="bench-room" ref={(it) => room.watch(it)}>
        {/* biome-ignore lint/a11y/useSemanticElements: a group of a drawing */}
        <svg
          role="group"
          data-per-cm={scale().perCm}
          aria-label="Drawing of drum and mics"
          viewBox={`0 0 ${scale().width} ${scale().height}`}
          style={{ 'font-size': `${scale().letters}px` }}
        >
          <rect class="bench-paper" width={scale().width} height={scale().height} />
          <DrumShapes drum={bench().drum} scale={scale()} dip={slow.dip()} />
          <path class="bench-head-arrow" d={headArrow()} />
          <Show when={slow.reachCm() !== null}>
            <Show
              when={slow.still()}
              fallback={
                <circle class="bench-wave" cx={hit().x} cy={hit().y} r={(slow.reachCm() ?? 0) * scale().perCm} />
              }
            >
              <For each={MIC_IDS}>
                {(mic) => (
                  <circle class="bench-wave" cx={hit().x} cy={hit().y} r={figures()[mic].pathCm * scale().perCm} />
                )}
              </For>
            </Show>
          </Show>
          <For each={MIC_IDS}>
            {(mic) => (
              <path class={`bench-path is-${mic}`} d={`M${hit().x} ${hit().y}L${capsule(mic).x} ${capsule(mic).y}`} />
            )}
          </For>
          <circle class="bench-hit" cx={hit().x} cy={hit().y} r={6} />
          <For each={MIC_IDS}>
            {(mic) => (
              <g
                class="bench-mic"
                role="slider"
                tabindex="0"
                data-mic={mic}
                data-x-cm={bench()[mic].grille.xCm}
                data-y-cm={bench()[mic].grille.yCm}
                data-path-cm={figures()[mic].pathCm.toFixed(2)}
                aria-label={`Mic ${micName(mic)}`}
                aria-roledescription="mic to move with the arrow keys"
                aria-valuenow={Number(figures()[mic].pathCm.toFixed(1))}
                aria-valuemin={0}
                aria-valuemax={400}
                aria-valuetext={micPlaceWords(bench(), mic, figures())}
                // what is touched here is dragged, and doesn’t scroll: touch-action alone didn’t keep Chromium from it
                on:touchstart={(e) => e.preventDefault()}
                on:pointerdown={(e) => moves.onPointerDown(e, mic)}
                on:keydown={(e) => moves.onKeyDown(e, mic)}
                on:keyup={() => moves.onKeyUp()}
                on:blur={() => moves.onBlur()}
              >
                <circle
                  class="bench-mic-reach"
                  cx={at(scale(), bench()[mic].grille).x}
                  cy={at(scale(), bench()[mic].grille).y}
                  r={34}
                />
                <MicShape
                  bench={bench()}
                  mic={mic}
                  scale={scale()}
                  push={figures()[mic].push}
                  reached={slow.reachCm() !== null && (slow.still() || reached(mic))}
                />
              </g>
            )}
          </For>
          <For each={MIC_IDS}>
            {(mic) => (
              <text
                class={`bench-length is-${mic}`}
                x={label(mic).x}
                y={label(mic).y}
                text-anchor="middle"
                dominant-baseline="central"
              >
                {lengthFigure(figures()[mic].pathCm)}
              </text>
            )}
          </For>
        </svg>
      </div>
      <div class="bench-under">
        <button
          type="button"
          class="press"
          data-command="watch-hit"
          onClick={() => slow.play(Math.max(figures().a.pathCm, figures().b.pathCm))}
        >
          Watch the hit
        </button>
        <p class="bench-said" role="status">
          {told() ? headSentence() : ''}
        </p>
        <p class="quiet bench-hint">
          Drag a mic, or choose it with Tab and move it with the arrow keys: 1 cm, with Shift 1 mm.
        </p>
      </div>
    </section>
  );
}
