/** The kit from above on paper: what was found, black on white. Nothing on it can be pressed. */
import { createMemo, For, type JSX, Show } from 'solid-js';
import { type KitSheet, lastTaken } from '../../sheet/document/model';
import { paperDrawing } from '../../sheet/drawing/kitDrawing';
import { pairMark } from '../../sheet/drawing/pairMarks';
import { kitSystem } from '../../sheet/kit/kitSystem';
import { DrumDrawn, MarkDrawn, MicrophoneDrawn } from '../drawing/DrawnShapes';
import '../drawing/drawing.css';

export function HandOverDrawing(props: { sheet: KitSheet }): JSX.Element {
  const drawing = createMemo(() => {
    const { sheet } = props;
    const choice = kitSystem(sheet).choice;
    // lines of what wasn't measured would take the room of what was found; the sheet lists those pairs
    const marks = sheet.pairs
      .filter((pair) => lastTaken(pair) !== null)
      .map((pair) => pairMark(sheet, choice, pair, null));
    return paperDrawing(sheet, marks);
  });
  const letters = (): number => drawing().size.letters;
  const hidden = (): boolean => drawing().pairs.some(({ mark, spot }) => mark.found !== '' && spot === null);
  return (
    <Show when={props.sheet.microphones.length > 0}>
      <section class="ho-drawing ho-wide" tabindex="0" aria-label="The kit from above">
        <p class="ho-swipe">Swipe the drawing sideways to see all of it.</p>
        <svg
          class="kit-drawing"
          viewBox={`0 0 ${drawing().size.width} ${drawing().size.height}`}
          font-size={String(letters())}
          role="img"
          aria-label="The kit from above: all that it shows is in the tables"
        >
          <For each={drawing().drums}>{(drum) => <DrumDrawn drum={drum} letters={letters()} />}</For>
          <For each={drawing().pairs}>
            {(one) => (
              <g class={`drawn-pair is-${one.mark.look}`}>
                <path class="drawn-line" d={one.path} />
                <Show when={one.spot}>
                  {(spot) => (
                    <>
                      <path
                        class="drawn-leader"
                        d={`M${spot().box.x} ${spot().box.y}L${spot().anchor.x} ${spot().anchor.y}`}
                      />
                      <circle class="drawn-end" cx={spot().anchor.x} cy={spot().anchor.y} r="2.2" />
                      <MarkDrawn mark={one.mark} box={spot().box} letters={letters()} />
                    </>
                  )}
                </Show>
              </g>
            )}
          </For>
          <For each={drawing().microphones}>
            {(one) => (
              <MicrophoneDrawn
                microphone={one}
                inverted={props.sheet.microphones.find(({ id }) => id === one.id)?.inverted ?? false}
                reach={drawing().reach}
                letters={letters()}
              />
            )}
          </For>
        </svg>
        <p class="ho-drawing-key">
          Drummer at the bottom. Dashed: uncertain. ▸ to do, ✓ nothing to do. Mic with a stroke: switch inverted. cm:
          path.
          <Show when={hidden()}> Others: in the table.</Show>
        </p>
      </section>
    </Show>
  );
}
