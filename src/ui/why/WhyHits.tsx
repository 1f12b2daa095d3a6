/** Every hit that is kept, the newest first: what became of it, its picture, its delay. */
import { For, type JSX, Show } from 'solid-js';
import { fateHere } from '../../advice/plan/hitFates';
import { fateText } from '../../advice/words/hitFateWords';
import type { HitReading, Reading } from '../../reading/reading';
import { fixedSeconds } from '../../text/time';
import { useApp } from '../shared/appScope';
import type { HitLook } from './createHitLook';
import { delayText, pushesText } from './hitWords';
import { WhyPicture } from './WhyPicture';

export function WhyHits(props: { look: HitLook }): JSX.Element {
  return (
    <ol class="why-hits" aria-label="Hits, newest first">
      <For each={props.look.hits().map((hit) => hit.serial)}>
        {(serial) => <Show when={props.look.hitOf(serial)}>{(hit) => <WhyHit look={props.look} hit={hit()} />}</Show>}
      </For>
    </ol>
  );
}

function WhyHit(props: { look: HitLook; hit: HitReading }): JSX.Element {
  const { meter, settings } = useApp();
  // a hit is there only while there is a reading of it
  const reading = (): Reading => meter.reading() as Reading;
  const picture = () => props.look.pictureOf(props.hit.serial);
  /** of a take, in the take */
  const when = (): number => {
    const source = meter.source();
    const { timeSeconds } = props.hit;
    return source?.type === 'take' ? source.takeSeconds(timeSeconds) : timeSeconds;
  };
  return (
    <li>
      <button
        type="button"
        class="why-hit"
        classList={{ refused: !props.look.used(props.hit) }}
        data-serial={props.hit.serial}
        data-fate={fateHere(props.hit, reading())}
        aria-pressed={props.look.shown() === props.hit.serial}
        onClick={() => props.look.choose(props.hit.serial)}
      >
        <span class="why-when">
          <b>
            <span class="unseen">Hit {props.hit.serial}: </span>
            {fateText(props.hit, reading(), picture())}
          </b>
          <span class="quiet">
            <span class="unseen"> at </span>
            {fixedSeconds(when(), 2)}
          </span>
        </span>
        <span class="unseen">{pushesText(picture())}</span>
        <WhyPicture picture={picture()} width={200} />
        <span class="why-delay">{delayText(props.hit, reading(), settings.temperatureC())}</span>
      </button>
    </li>
  );
}
