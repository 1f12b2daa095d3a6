/** The kit sheet on paper, for whoever mixes: black on white, everything as text. */
import { createMemo, For, type JSX, Show } from 'solid-js';
import type { KitSheet } from '../../sheet/document/model';
import { type HandOver, handOver } from '../../sheet/print/handOver';
import { Unbroken } from '../shared/Unbroken';
import { HandOverDrawing } from './HandOverDrawing';
import { HandOverPicture } from './HandOverPicture';
import { isSlim, MicrophoneTable, PairTable } from './HandOverTables';

export function HandOverSheet(props: { sheet: KitSheet }): JSX.Element {
  const told = createMemo(() => handOver(props.sheet));
  return (
    <article class="ho-page" aria-labelledby="ho-name">
      <Head told={told()} />
      <HandOverDrawing sheet={props.sheet} />
      <div class="ho-two" classList={{ 'ho-slim': isSlim(told()) }}>
        <InTheMix told={told()} />
        <MicrophoneTable rows={told().microphones} />
      </div>
      <Show when={told().pairs.length > 0}>
        <PairTable rows={told().pairs} all={told().notRead === null} />
      </Show>
      <Show when={told().notRead}>
        <p class="ho-not-read">{told().notRead}</p>
      </Show>
      <Show when={told().pictures.length > 0}>
        <section class="ho-pictures" aria-labelledby="ho-pictures-title">
          <h2 id="ho-pictures-title">The sum before and after</h2>
          <p class="ho-key">
            A+B in dB relative to one mic alone, at equal level. Dashed: before. Solid: after. Cut off at the edges.
          </p>
          <div class="ho-picture-list">
            <For each={told().pictures}>{(picture) => <HandOverPicture picture={picture} />}</For>
          </div>
        </section>
      </Show>
      <section class="ho-cautions" aria-label="Limits and cautions">
        <ul>
          <For each={told().cautions}>
            {(text) => (
              <li>
                <Unbroken text={text} />{' '}
              </li>
            )}
          </For>
        </ul>
      </section>
    </article>
  );
}

function Head(props: { told: HandOver }): JSX.Element {
  const head = () => props.told.head;
  return (
    <header class="ho-head">
      <h1 id="ho-name">{head().name}</h1>
      <Show when={head().note}>
        <p class="ho-note">{head().note}</p>
      </Show>
      <dl class="ho-facts">
        <Fact name="Rate" text={head().rate} />
        <Fact name="Air temp" text={head().temperature} />
        <Fact name="Measured" text={head().read} />
        <Fact name="By" text={head().initials} />
        <div>
          <dt class="unseen">State</dt> <dd>{head().accepted}</dd>
        </div>
      </dl>
    </header>
  );
}

function Fact(props: { name: string; text: string }): JSX.Element {
  return (
    <div>
      <dt>{props.name}</dt> <dd>{props.text}</dd>
    </div>
  );
}

function InTheMix(props: { told: HandOver }): JSX.Element {
  const mix = () => props.told.inTheMix;
  return (
    <section class="ho-mix" aria-labelledby="ho-mix-title">
      <h2 id="ho-mix-title">In the mix</h2>
      <Show when={mix().lead !== ''}>
        <p class="ho-key">{mix().lead}</p>
      </Show>
      <Said title="Invert" items={mix().invert} strong />
      <Said title="Delay" items={mix().delay} strong />
      <Said title="Compromises" items={mix().pays} />
      <Said title="Several mics on one drum" items={mix().groups} />
      <Said title="Watch out for" items={props.told.doubts} />
    </section>
  );
}

/** A heading and its sentences; nothing where there are none. */
function Said(props: { title: string; items: readonly string[]; strong?: boolean }): JSX.Element {
  return (
    <Show when={props.items.length > 0}>
      <div class="ho-said" classList={{ 'ho-strong': props.strong ?? false }}>
        <h3>{props.title}</h3>
        <ul>
          <For each={props.items}>
            {(text) => (
              <li>
                <Unbroken text={text} />
              </li>
            )}
          </For>
        </ul>
      </div>
    </Show>
  );
}
