/** One hit large, and how the hits are laid. */
import { For, type JSX, Show } from 'solid-js';
import { fateText } from '../../advice/words/hitFateWords';
import type { Reading } from '../../reading/reading';
import { alignable } from '../../state/views/whyView';
import { useApp } from '../shared/appScope';
import { Unbroken } from '../shared/Unbroken';
import type { HitLook } from './createHitLook';
import { factsText, laidText } from './hitWords';
import { WhyPicture } from './WhyPicture';

export function WhyLay(props: { look: HitLook }): JSX.Element {
  const { meter } = useApp();
  return (
    <fieldset class="why-lay">
      <legend class="unseen">How A and B are drawn</legend>
      <For each={alignable(meter.reading()) ? [true, false] : [false]}>
        {(on) => (
          <label class="band" classList={{ chosen: props.look.laidBack() === on }}>
            <input
              type="radio"
              name="why-lay"
              checked={props.look.laidBack() === on}
              onChange={() => props.look.setAligned(on)}
            />
            {on ? 'B lined up with A' : 'As recorded'}
          </label>
        )}
      </For>
      <label class="check">
        <input
          type="checkbox"
          checked={props.look.near()}
          onChange={(e) => props.look.setNear(e.currentTarget.checked)}
        />
        Zoom in on the first push
      </label>
    </fieldset>
  );
}

export function WhyLarge(props: { look: HitLook }): JSX.Element {
  const { meter } = useApp();
  const look = props.look;
  const laid = (): string =>
    laidText(look.laidBack() ? (meter.answer()?.delaySamples ?? 0) : null, meter.reading()?.sampleRate ?? 1);
  return (
    <Show when={look.hitOf(look.shown())}>
      {(hit) => (
        <figure class="why-large" data-serial={look.shown()} data-aligned={String(look.laidBack())}>
          <figcaption>
            <b>
              Hit {hit().serial}: {fateText(hit(), meter.reading() as Reading, look.pictureOf(hit().serial))}
            </b>{' '}
            <span class="quiet">{laid()}</span>
          </figcaption>
          <WhyPicture picture={look.close()} width={480} window={look.closeWindow()} />
          <p class="why-facts">
            <Unbroken text={factsText('A', look.close()?.a, hit().levelADbfs)} />
            <br />
            <Unbroken text={factsText('B', look.close()?.b, hit().levelBDbfs)} />
          </p>
        </figure>
      )}
    </Show>
  );
}
