/** Why: how the reading came about, and every hit it used or refused, as a picture with its reason. */
import { For, type JSX } from 'solid-js';
import { usedText } from '../../advice/words/drumWords';
import { whySentences } from '../../advice/words/whyWords';
import { DrumChoice } from '../meter/DrumChoice';
import { useApp } from '../shared/appScope';
import { holdFocus } from '../shared/holdFocus';
import { Key } from '../shared/Key';
import { Unbroken } from '../shared/Unbroken';
import { createHitLook } from './createHitLook';
import { WhyHits } from './WhyHits';
import { WhyLarge, WhyLay } from './WhyLarge';
import './why.css';

export function Why(props: { onClose: () => void }): JSX.Element {
  const { meter } = useApp();
  const look = createHitLook(meter);
  let panel: HTMLDivElement | undefined;
  holdFocus(() => panel);
  const used = (): string => {
    const now = meter.reading();
    return now ? usedText(now) : 'No reading yet';
  };
  const sentences = (): string[] => {
    const now = meter.reading();
    return now ? whySentences(now, meter.context()) : [];
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
          <WhyLay look={look} />
          <WhyLarge look={look} />
          <DrumChoice group="why-drum" />
        </div>
        <WhyHits look={look} />
      </div>
    </div>
  );
}
