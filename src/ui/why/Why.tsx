/** Why: how the reading came about, and every hit it used or refused, as a picture with its reason. */
import { createEffect, createSignal, For, type JSX, onCleanup, Show } from 'solid-js';
import { fateHere, honestPicture } from '../../advice/plan/fates';
import { lowEndOnly } from '../../advice/plan/reasons';
import { usedText } from '../../advice/words/drumWords';
import { fateText } from '../../advice/words/fateWords';
import { whySentences } from '../../advice/words/whyWords';
import { pathCm } from '../../reading/acoustics';
import type { ChannelPicture, HitPicture } from '../../reading/hitPictures';
import { answerOf, type HitReading, type Reading } from '../../reading/reading';
import { alignable } from '../../state/views/whyView';
import { cmFigure } from '../../text/length';
import { dbfsFigure } from '../../text/level';
import { fixed, NO_VALUE } from '../../text/number';
import { fixedMs, fixedSeconds, msFigure } from '../../text/time';
import { DrumChoice } from '../meter/DrumChoice';
import { useApp } from '../shared/appScope';
import { holdFocus } from '../shared/holdFocus';
import { Key } from '../shared/Key';
import { Unbroken } from '../shared/Unbroken';
import { WhyPicture } from './WhyPicture';
import './why.css';

export function Why(props: { onClose: () => void }): JSX.Element {
  const { meter, settings } = useApp();
  const [aligned, setAligned] = createSignal(true);
  const [near, setNear] = createSignal(false);
  const [chosen, setChosen] = createSignal<number | null>(null);
  let panel: HTMLDivElement | undefined;
  holdFocus(() => panel);

  const reading = meter.reading;
  const hits = (): HitReading[] => [...(reading()?.perHit ?? [])].reverse();
  const hitOf = (serial: number): HitReading | undefined => reading()?.perHit.find((hit) => hit.serial === serial);
  const used = (hit: HitReading): boolean => fateHere(hit, reading() as Reading) === 'used';
  /** the one that a person chose, while it is kept; else the newest that is used */
  const large = (): number => {
    const wanted = chosen();
    if (wanted !== null && hitOf(wanted)) return wanted;
    return (hits().find(used) ?? hits().find((hit) => hit.fate !== 'pending'))?.serial ?? 0;
  };
  createEffect(() =>
    meter.look(reading(), {
      aligned: aligned(),
      serial: large(),
      near: near(),
      invertB: meter.invertB() !== meter.switchedB(),
    }),
  );
  onCleanup(() => meter.look(null, null));

  const honest = (picture: HitPicture | null | undefined): HitPicture | null => {
    const now = reading();
    return picture && now ? honestPicture(picture, answerOf(now)) : (picture ?? null);
  };
  const pictureOf = (serial: number): HitPicture | null =>
    honest(meter.pictures()?.hits.find((one) => one.serial === serial));
  /** the picture that came last stands until that of another hit is here */
  const close = (): HitPicture | null => honest(meter.pictures()?.close);
  const shown = (): number => {
    const serial = close()?.serial ?? 0;
    return hitOf(serial) ? serial : large();
  };
  const closeWindow = (): { fromMs: number; lengthMs: number } | undefined => {
    const wish = meter.pictures()?.wish;
    return wish && { fromMs: wish.closeFromMs, lengthMs: wish.closeLengthMs };
  };
  const fate = (hit: HitReading): string => fateText(hit, reading() as Reading, pictureOf(hit.serial));
  const delayText = ({ delaySamples, polarity }: HitReading): string => {
    const now = reading();
    if (now && lowEndOnly(answerOf(now)) !== null) return 'low end only: no delay';
    if (delaySamples === null) return 'no delay read';
    const seconds = delaySamples / (reading()?.sampleRate ?? 48000);
    return `${polarity ?? NO_VALUE} · ${msFigure(seconds * 1000)} · ${cmFigure(pathCm(seconds, settings.temperatureC()))}`;
  };
  const pushText = (letter: string, of: ChannelPicture | undefined): string =>
    !of
      ? `${letter}: no picture`
      : of.arrival === null
        ? `${letter}: no first push found`
        : `${letter}: first push ${of.push > 0 ? 'up' : 'down'}`;
  const pushes = (serial: number): string => {
    const picture = pictureOf(serial);
    return `. ${pushText('A', picture?.a)}. ${pushText('B', picture?.b)}. `;
  };
  const laidText = (): string => {
    const ms = ((meter.answer()?.delaySamples ?? 0) / (reading()?.sampleRate ?? 1)) * 1000;
    return `B drawn ${fixedMs(Math.abs(ms), 3)} ${ms < 0 ? 'later' : 'earlier'}`;
  };
  /** what is drawn: a person's wish stands by until there is an arrival to align at */
  const laidBack = (): boolean => aligned() && alignable(reading());

  return (
    <div class="why" role="dialog" aria-modal="true" aria-labelledby="why-used" tabindex="-1" ref={panel}>
      <div class="why-head">
        <h2 id="why-used">
          <span class="why-name">Why?</span> {reading() ? usedText(reading() as Reading) : 'No reading yet'}
        </h2>
        <button type="button" class="press" data-command="back" onClick={() => props.onClose()}>
          Back to the sheet <Key of="back" />
        </button>
      </div>
      <div class="why-body">
        <div class="why-words">
          <ul id="why-sentences">
            <For each={reading() ? whySentences(reading() as Reading, meter.context()) : []}>
              {(sentence) => (
                <li>
                  <Unbroken text={sentence} />
                </li>
              )}
            </For>
          </ul>
          <fieldset class="why-lay">
            <legend class="unseen">How A and B are laid</legend>
            <For each={alignable(reading()) ? [true, false] : [false]}>
              {(on) => (
                <label class="band" classList={{ chosen: laidBack() === on }}>
                  <input type="radio" name="why-lay" checked={laidBack() === on} onChange={() => setAligned(on)} />
                  {on ? 'Aligned at the arrival' : 'As recorded'}
                </label>
              )}
            </For>
            <label class="check">
              <input type="checkbox" checked={near()} onChange={(e) => setNear(e.currentTarget.checked)} />
              First push only
            </label>
          </fieldset>
          <Show when={hitOf(shown())}>
            {(hit) => (
              <figure class="why-large" data-serial={shown()} data-aligned={String(laidBack())}>
                <figcaption>
                  <b>
                    Hit {hit().serial}: {fate(hit())}
                  </b>{' '}
                  <span class="quiet">{laidBack() ? laidText() : 'A and B on one clock'}</span>
                </figcaption>
                <WhyPicture picture={close()} width={480} window={closeWindow()} />
                <p class="why-facts">
                  <Unbroken text={facts('A', close()?.a, hit().levelADbfs)} />
                  <br />
                  <Unbroken text={facts('B', close()?.b, hit().levelBDbfs)} />
                </p>
              </figure>
            )}
          </Show>
          <DrumChoice group="why-drum" />
        </div>
        <ol class="why-hits" aria-label="Hits, newest first">
          <For each={hits().map((hit) => hit.serial)}>
            {(serial) => (
              <Show when={hitOf(serial)}>
                {(hit) => (
                  <li>
                    <button
                      type="button"
                      class="why-hit"
                      classList={{ refused: !used(hit()) }}
                      data-serial={serial}
                      data-fate={fateHere(hit(), reading() as Reading)}
                      aria-pressed={shown() === serial}
                      onClick={() => setChosen(serial)}
                    >
                      <span class="why-when">
                        <b>
                          <span class="unseen">Hit {serial}: </span>
                          {fate(hit())}
                        </b>
                        <span class="quiet">
                          <span class="unseen"> at </span>
                          {fixedSeconds(hit().timeSeconds, 2)}
                        </span>
                      </span>
                      <span class="unseen">{pushes(serial)}</span>
                      <WhyPicture picture={pictureOf(serial)} width={200} />
                      <span class="why-delay">{delayText(hit())}</span>
                    </button>
                  </li>
                )}
              </Show>
            )}
          </For>
        </ol>
      </div>
    </div>
  );

  /** "A: first push up, 31 times what lies before it; hit peaks at −8.1 dBFS" */
  function facts(letter: string, of: ChannelPicture | undefined, levelDbfs: number | null): string {
    const push = pushText(letter, of);
    const times =
      of && of.arrival !== null
        ? `, ${of.quality < 1000 ? `${fixed(of.quality, 0)}` : 'over 1000'} times what lies before it`
        : '';
    return `${push}${times}${of?.noiseBound ? ' (noise sets the threshold)' : ''}; the hit peaks at ${dbfsFigure(levelDbfs)}`;
  }
}
