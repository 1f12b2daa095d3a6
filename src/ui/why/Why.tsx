/** Why: how the reading came about, and every hit it used or refused, as a picture with its reason. */
import { For, type JSX, Show } from 'solid-js';
import { whySentences } from '../../advice/words/whyWords';
import { sayTurnedOver, turnedOver } from '../../state/meter/turnedOver';
import { DrumChoice } from '../meter/DrumChoice';
import { severalDrums } from '../meter/severalDrums';
import { useApp } from '../shared/appScope';
import { hitsUsed } from '../shared/figures';
import { holdFocus } from '../shared/holdFocus';
import { Key } from '../shared/Key';
import { Unbroken } from '../shared/Unbroken';
import { createHitLook } from './createHitLook';
import { WhyHits } from './WhyHits';
import { WhyLarge, WhyLay } from './WhyLarge';
import './why.css';

export function Why(props: { onClose: () => void }): JSX.Element {
  const { meter, shown } = useApp();
  const look = createHitLook({ ...meter, reading: shown.reading });
  let panel: HTMLDivElement | undefined;
  holdFocus(() => panel);
  const used = (): string => {
    const now = shown.reading();
    const { label, text } = hitsUsed(now, meter.context());
    return now ? (label === 'Used:' ? text : `${label} ${text}`) : 'No reading yet';
  };
  const sentences = (): string[] => {
    const now = shown.reading();
    if (now === null) return [];
    const sentences = whySentences(now, { ...meter.context(), moveCm: shown.advice()?.moveCm ?? null });
    return turnedOver(now) ? sentences.map(sayTurnedOver) : sentences;
  };
  /** What the meter's page leaves out where it lists the drums, or has no room. */
  const beside = (): string[] => {
    const said = shown.advice();
    if (said === null || shown.patching()) return [];
    return said.notes.length > 0 || severalDrums(shown.reading()) ? [said.text, ...said.notes] : [];
  };
  return (
    <div class="why" role="dialog" aria-modal="true" aria-labelledby="why-used" tabindex="-1" ref={panel}>
      <div class="why-head">
        <h2 id="why-used">
          <span class="why-name">Why?</span> {used()}
        </h2>
        <button type="button" class="press" data-command="back" onClick={() => props.onClose()}>
          Back to the meter <Key of="back" />
        </button>
      </div>
      <div class="why-body">
        <div class="why-words">
          <ul id="why-sentences">
            <For each={sentences()}>
              {(sentence) => (
                <li>
                  <Unbroken text={sentence} />
                </li>
              )}
            </For>
          </ul>
          <Show when={beside().length > 0}>
            <ul id="why-beside" aria-label="What to do, and what to know of it">
              <For each={beside()}>
                {(sentence) => (
                  <li>
                    <Unbroken text={sentence} />
                  </li>
                )}
              </For>
            </ul>
          </Show>
          <WhyLay look={look} />
          <WhyLarge look={look} />
          <Show when={!shown.patching()}>
            <DrumChoice group="why-drum" />
          </Show>
        </div>
        <WhyHits look={look} />
      </div>
    </div>
  );
}
