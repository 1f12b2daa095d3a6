/** The first screen: one press to hear and see the example kit, and the two ways to bring microphones. */
import { createSignal, For, type JSX, onMount, Show } from 'solid-js';
import { UNNAMED } from '../../text/names';
import { useApp } from '../shared/appScope';
import { FirstCautions } from '../shared/Cautions';
import { FilePress } from './FilePress';

export function Start(): JSX.Element {
  const { meter, parts, kitAndBack } = useApp();
  const kit = parts.kit.here;
  const [chosen, setChosen] = createSignal('');
  onMount(() => void meter.loadScenes());
  // the round's next pair brings its own example
  const scene = () => meter.scenes().find((s) => s.id === (chosen() || kit()?.round.scene())) ?? meter.scenes()[0];
  return (
    <main class="start">
      <h1>Two mics, one drum: are they working together?</h1>
      <p class="lead">
        Crosshead listens to both while the drum is played. It says whether to invert one, how far to move it or how
        much to delay it, and what the sum gains. When it can’t tell, it says why.
      </p>
      <div class="ways">
        <section class="way way-first" aria-labelledby="way-demo">
          <h2 id="way-demo">No mics at hand</h2>
          <button
            type="button"
            class="press strong big"
            data-command="play-demo"
            disabled={!scene() || meter.opening()}
            onClick={() => {
              const it = scene();
              if (it) void meter.open({ type: 'demo', scene: it });
            }}
          >
            {meter.opening() ? 'Opening …' : 'Play the example kit'}
          </button>
          <Show when={meter.scenes().length > 0}>
            <label class="field">
              <span>Example</span>
              <select id="scene" onChange={(e) => setChosen(e.currentTarget.value)}>
                <For each={meter.scenes()}>
                  {(s) => (
                    <option value={s.id} selected={s.id === scene()?.id}>
                      {s.title}
                    </option>
                  )}
                </For>
              </select>
            </label>
            <p class="quiet">{scene()?.note}</p>
          </Show>
          <p class="quiet">It starts muted: bring “Hear it” up slowly, on closed-back headphones.</p>
        </section>
        <section class="way" aria-labelledby="way-interface">
          <h2 id="way-interface">Two mics, live</h2>
          <button type="button" class="press" data-command="connect" onClick={() => meter.go('connect')}>
            Connect an interface
          </button>
          <p class="quiet">Both on the first two channels of one device.</p>
        </section>
        <section class="way" aria-labelledby="way-recording">
          <h2 id="way-recording">A take already recorded</h2>
          <FilePress>Open a recording</FilePress>
          <button type="button" class="press" data-command="open-take" onClick={() => meter.go('take')}>
            Open a whole take
          </button>
          <p class="quiet">
            Two mics: one stereo file or two mono files. A whole take: all its tracks. Or drop them anywhere on this
            page. Nothing leaves this computer.
          </p>
        </section>
        <section class="way" aria-labelledby="way-kit">
          <h2 id="way-kit">The whole kit</h2>
          <button type="button" class="press" data-command="open-sheet" onClick={kitAndBack}>
            {kit()?.shelf.sheet() ? `Kit sheet: ${kit()?.shelf.sheet()?.name || UNNAMED}` : 'Start a kit sheet'}
          </button>
          <p class="quiet">
            Work through the pairs with the drummer: before and after on one sheet, to hand over to the mix.
          </p>
        </section>
        <section class="way way-line" aria-labelledby="way-bench">
          <h2 id="way-bench">To teach or to learn</h2>
          <button type="button" class="press" data-command="open-bench" onClick={() => meter.go('bench')}>
            Teaching bench
          </button>
          <button type="button" class="press" data-command="open-by-ear" onClick={() => meter.go('by-ear')}>
            By ear first
          </button>
          <p class="quiet">
            A drawn drum, two mics to drag, and what their sum does; eight lessons of two minutes. By ear first: ten
            pairs to hear, to judge, and then to see.
          </p>
        </section>
      </div>
      <FirstCautions />
    </main>
  );
}
