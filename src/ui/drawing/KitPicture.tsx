/** The kit from above: what was read, what is next, and the way there. Drums and microphones can be moved about. */
import { createMemo, createSignal, Index, type JSX, Show } from 'solid-js';
import { labelOf, pairTitle } from '../../sheet/document/labels';
import type { KitSheet, Pair, Place } from '../../sheet/document/model';
import type { DrawnMicrophone, DrawnPair } from '../../sheet/drawing/kitDrawing';
import { markSize } from '../../sheet/drawing/kitDrawing';
import { microphonePlaces } from '../../sheet/drawing/places';
import { placeText } from '../../sheet/drawing/placeWords';
import type { MarkSpot } from '../../sheet/drawing/spots';
import type { KitChoice } from '../../sheet/kit/kitChoice';
import { sheetDrumName } from '../../text/names';
import { STATE_TEXT, stateOf } from '../kit/pairState';
import { createDrawing, createSize } from './createDrawing';
import { createMoves, moved } from './createMoves';
import { DrumDrawn, MarkDrawn, MicrophoneDrawn, StoolDrawn } from './DrawnShapes';
import { Legend } from './Legend';
import { lineWords, micWay } from './pictureWords';
import './drawing.css';

export interface KitPictureProps {
  sheet: KitSheet;
  choice: KitChoice | null;
  next: string | null;
  rows: number;
  onGo: (pair: string) => void;
  onChange: (edit: (sheet: KitSheet) => KitSheet) => void;
}

export function KitPicture(props: KitPictureProps): JSX.Element {
  const { size, watch } = createSize();
  const edge = (): number => 2 * (0.85 * size().letters + 2);
  const moves = createMoves(
    () => ({ width: size().width - edge(), height: size().height - edge() }),
    (now) => {
      props.onChange((sheet) => moved(sheet, now));
      setSaid(`${now.what === 'drum' ? sheetDrumName(now.id) : labelOf(props.sheet, now.id)}: ${placed(now.to)}.`);
    },
  );
  const shown = createMemo(() => {
    const now = moves.moving();
    return now ? moved(props.sheet, now) : props.sheet;
  });
  const drawing = createDrawing({
    sheet: () => props.sheet,
    shown,
    choice: () => props.choice,
    next: () => props.next,
    rows: () => props.rows,
    size,
  });
  const [said, setSaid] = createSignal('');
  const [pointed, setPointed] = createSignal<string | null>(null);
  const [roving, setRoving] = createSignal<string | null>(null);
  const [name, setName] = createSignal('');
  const placed = (place: Place): string => placeText(place, drawing().places);
  const places = createMemo(() => microphonePlaces(shown(), drawing().places));
  const pairOf = (id: string): Pair | undefined => props.sheet.pairs.find((one) => one.id === id);
  /** of all lines one can be tabbed to; the arrows lead to the others */
  const tabbed = createMemo((): string | undefined => {
    const here = (id: string | null): boolean => drawing().pairs.some(({ mark }) => mark.pair === id);
    if (here(roving())) return roving() as string;
    return here(props.next) ? (props.next as string) : drawing().pairs[0]?.mark.pair;
  });
  const wordsOf = (one: DrawnPair): string => {
    const pair = pairOf(one.mark.pair);
    return pair ? `${pairTitle(props.sheet, pair)}: ${lineWords(STATE_TEXT[stateOf(pair)], one.mark)}` : '';
  };
  const over = () => drawing().pairs.find(({ mark }) => mark.pair === pointed());
  let svg: SVGSVGElement | undefined;

  function lineKey(event: KeyboardEvent, index: number): void {
    const list = drawing().pairs;
    const one = list[index] as DrawnPair;
    if (event.key === 'Enter' || event.key === ' ') props.onGo(one.mark.pair);
    else {
      const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
      const to = by === undefined ? undefined : list[(index + by + list.length) % list.length];
      if (!to) return;
      setRoving(to.mark.pair);
      svg?.querySelector<SVGElement>(`[data-line="${to.mark.pair}"]`)?.focus();
    }
    taken(event);
  }

  const taken = (event: Event): void => {
    event.preventDefault();
    // the page's own keys must not take it too
    event.stopPropagation();
  };
  const goFrom = (id: string): void => {
    const way = micWay(props.sheet, id);
    if (way) props.onGo(way.id);
    else setSaid(`${labelOf(props.sheet, id)} is in no pair yet.`);
  };
  /** begins with what stands there, as it stands there */
  const micWords = ({ id, number, lines }: DrawnMicrophone, place: Place): string => {
    const way = micWay(props.sheet, id);
    const full = labelOf(props.sheet, id);
    const seen = [number, ...lines, ...(lines[0] === full ? [] : [full])].filter((text) => text !== '').join(' ');
    return `${seen}: ${placed(place)}${way ? `. Enter: ${pairTitle(props.sheet, way)}` : ''}`;
  };

  /** under the drawing, for who sees where it stands */
  const pressWords = (id: string): string => {
    const way = micWay(props.sheet, id);
    return `${labelOf(props.sheet, id)}${way ? `: press for ${pairTitle(props.sheet, way)}` : ': in no pair yet'}`;
  };

  return (
    <figure class="kit-picture" aria-labelledby="picture-title">
      <h2 id="picture-title" class="unseen">
        The kit from above
      </h2>
      <div class="picture-room" ref={(element) => watch(element)}>
        {/* biome-ignore lint/a11y/useSemanticElements: a group of a drawing */}
        <svg
          ref={svg}
          class="kit-drawing"
          viewBox={`0 0 ${size().width} ${size().height}`}
          font-size={String(size().letters)}
          role="group"
          aria-label="Drawing of the kit"
          aria-describedby="picture-keys"
        >
          <rect class="drawn-sheet" width={size().width} height={size().height} />
          <StoolDrawn stool={drawing().stool} letters={size().letters} />
          <Index each={drawing().drums}>
            {(drum, i) => {
              const place = (): Place => drawing().places[i]?.place ?? { x: 0.5, y: 0.5 };
              return (
                // biome-ignore lint/a11y/useSemanticElements: SVG has no button
                <g
                  class="movable drawn-drum"
                  role="button"
                  tabindex="0"
                  data-drum={drum().drum}
                  aria-label={`${sheetDrumName(drum().drum)}, drum: ${percentText(place())}`}
                  on:pointerdown={(e) => moves.onPointerDown(e, 'drum', drum().drum, place())}
                  on:keydown={(e) => {
                    if (moves.onKeyDown(e, 'drum', drum().drum, place())) taken(e);
                  }}
                  on:keyup={() => moves.settle()}
                  on:blur={() => moves.settle()}
                >
                  <DrumDrawn drum={drum()} letters={size().letters} />
                </g>
              );
            }}
          </Index>
          <Index each={drawing().pairs}>
            {(one, i) => (
              // biome-ignore lint/a11y/useSemanticElements: SVG has no button
              <g
                class={`drawn-pair is-${one().mark.look}`}
                classList={{ 'is-next': one().mark.next, 'is-pointed': pointed() === one().mark.pair }}
                role="button"
                tabindex={tabbed() === one().mark.pair ? 0 : -1}
                data-line={one().mark.pair}
                aria-label={wordsOf(one())}
                on:click={() => props.onGo(one().mark.pair)}
                on:keydown={(e) => lineKey(e, i)}
                on:pointerenter={() => {
                  setPointed(one().mark.pair);
                  setName(wordsOf(one()));
                }}
                on:pointerleave={() => setPointed(null)}
                on:focus={() => {
                  setRoving(one().mark.pair);
                  setPointed(one().mark.pair);
                  setName(wordsOf(one()));
                }}
                on:blur={() => setPointed(null)}
              >
                <path class="drawn-reach" d={one().path} />
                <Show when={one().mark.next}>
                  <path class="drawn-next" d={one().path} />
                </Show>
                <path class="drawn-line" d={one().path} />
                <Show when={one().spot}>
                  {(spot) => (
                    <>
                      <path class="drawn-leader" d={leader(spot())} />
                      <MarkDrawn mark={one().mark} box={spot().box} letters={size().letters} />
                    </>
                  )}
                </Show>
              </g>
            )}
          </Index>
          <Index each={drawing().microphones}>
            {(one) => {
              const place = (): Place => places().get(one().id) ?? { x: 0.5, y: 0.5 };
              return (
                // biome-ignore lint/a11y/useSemanticElements: SVG has no button
                <g
                  class="movable drawn-mic"
                  role="button"
                  tabindex="0"
                  data-mic={one().id}
                  aria-label={micWords(one(), place())}
                  on:pointerdown={(e) => moves.onPointerDown(e, 'microphone', one().id, place())}
                  on:click={() => {
                    if (!moves.wasDrag()) goFrom(one().id);
                  }}
                  on:keydown={(e) => {
                    if (e.key === 'Enter' || e.key === ' ') {
                      taken(e);
                      goFrom(one().id);
                    } else if (moves.onKeyDown(e, 'microphone', one().id, place())) taken(e);
                  }}
                  on:keyup={() => moves.settle()}
                  on:pointerenter={() => setName(pressWords(one().id))}
                  on:focus={() => setName(pressWords(one().id))}
                  on:blur={() => moves.settle()}
                >
                  <circle class="drawn-mic-reach" cx={one().at.x} cy={one().at.y} r={Math.max(16, size().letters)} />
                  <MicrophoneDrawn
                    microphone={one()}
                    inverted={props.sheet.microphones.find(({ id }) => id === one().id)?.inverted ?? false}
                    reach={drawing().reach}
                    letters={size().letters}
                  />
                </g>
              );
            }}
          </Index>
          <Show when={over()?.spot === null && over()}>
            {(one) => (
              <g class="drawn-over">
                <MarkDrawn
                  mark={one().mark}
                  box={{ ...inside(one().middle, markSize(one().mark, size().letters), size()) }}
                  letters={size().letters}
                />
              </g>
            )}
          </Show>
        </svg>
      </div>
      <p class="picture-line" aria-hidden="true">
        {name()}
      </p>
      <p class="unseen" role="status">
        {said()}
      </p>
      <Legend />
    </figure>
  );
}

/** from a mark that stands aside to its line */
const leader = ({ box, anchor }: MarkSpot): string => `M${box.x} ${box.y}L${anchor.x} ${anchor.y}`;

const percentText = ({ x, y }: Place): string =>
  `${Math.round(100 * x)} % from the left, ${Math.round(100 * y)} % from the front`;

/** A box round that middle, within the drawing. */
function inside(
  middle: { x: number; y: number },
  box: { width: number; height: number },
  size: { width: number; height: number },
): { x: number; y: number; width: number; height: number } {
  const within = (at: number, long: number, all: number): number =>
    Math.min(all - long / 2 - 1, Math.max(long / 2 + 1, at));
  return { ...box, x: within(middle.x, box.width, size.width), y: within(middle.y, box.height, size.height) };
}
