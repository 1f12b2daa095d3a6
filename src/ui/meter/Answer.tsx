/** The answer: what to do, as a sentence with its numbers, and how sure it is. Readable from three metres. */
import { For, type JSX, Show } from 'solid-js';
import { kindWords } from '../../advice/words/pairKindWords';
import { micNames } from '../../advice/words/wording';
import { pathCm } from '../../reading/acoustics';
import { haltOf, isHalted } from '../../state/meter/meterTypes';
import type { Way } from '../../state/views/pushesView';
import { pairName } from '../../text/names';
import { dataNumber } from '../../text/number';
import { capital } from '../../text/sentence';
import { useApp } from '../shared/appScope';
import { createFit } from '../shared/createFit';
import { Flags } from '../shared/Flags';
import { figuresOf, isRough } from '../shared/figures';
import { heldCall } from '../shared/heldWords';
import { PushMark, StateMark } from '../shared/Marks';
import { HALT_WORDS, isOld } from '../shared/oldWords';
import { Press } from '../shared/Press';
import { SpokenAnswer } from '../shared/SpokenAnswer';
import { Unbroken } from '../shared/Unbroken';
import { Alternatives } from './Alternatives';
import { severalDrums } from './severalDrums';

/** letters */
const LONGEST_HEADLINE = 60;

/** Class of type size: a longer sentence is set smaller, so that it stays on the sheet. */
export function sizeOf(text: string): 'size-1' | 'size-2' | 'size-3' | 'size-4' {
  if (text.length <= 38) return 'size-1';
  if (text.length <= 76) return 'size-2';
  return text.length <= 130 ? 'size-3' : 'size-4';
}

/** @param props.aWay the way of A’s first push */
export function Answer(props: { aWay: Way }): JSX.Element {
  const app = useApp();
  const { meter, settings, parts, setOver, shown } = app;
  const { reading, answer, advice, patching } = shown;
  const delayMs = (): number | null => {
    const r = reading();
    const samples = answer()?.delaySamples ?? null;
    return r === null || samples === null ? null : (samples / r.sampleRate) * 1000;
  };
  const path = (): number | null => {
    const ms = delayMs();
    return ms === null ? null : pathCm(ms / 1000, settings.temperatureC());
  };
  const text = (): string => {
    if (patching()) return parts.kit.here()?.round.bring() ?? '';
    const held = heldCall(app);
    if (held !== null) return `${held}.`;
    const said = advice();
    if (said) return said.text;
    if (!isHalted(meter.run())) return 'Waiting for signal.';
    return `No reading: ${HALT_WORDS[haltOf(meter)]}.`;
  };
  const pairTitle = (): string => {
    const round = parts.kit.here()?.round;
    if (round?.pair()) return patching() ? `Next: ${round.title()}` : round.title();
    if (meter.source()?.type === 'demo') return meter.sourceLabel();
    const [one, two] = settings.labels();
    if (one && two) return meter.swapped() ? pairName(two, one) : pairName(one, two);
    const kind = settings.kind();
    return kind === 'other' ? 'Two mics' : kindWords(kind).title;
  };
  // a long sentence set small could not be read from where the microphone is: its short form stands above it
  const headline = (): string => {
    const said = advice();
    const long = !patching() && heldCall(app) === null && said !== null && said.text.length > LONGEST_HEADLINE;
    return long ? said.callOut : text();
  };
  /** What the large line doesn't say yet. */
  const rest = (): string => {
    const [said, start] = [text(), `${headline()}: `];
    return said.startsWith(start) ? capital(said.slice(start.length)) : said;
  };
  // several drums have a list beside it, and the options tell the gains
  const several = (): boolean => severalDrums(reading());
  /** The large line says all of it, or the options do. */
  const saidTwice = (): boolean => headline() === text() || (several() && (advice()?.plan.length ?? 0) > 1);
  const notes = (): readonly string[] => (heldCall(app) !== null ? [] : (advice()?.notes ?? []));
  const figures = () =>
    figuresOf(answer(), reading()?.sampleRate ?? 1, settings.temperatureC(), advice(), micNames(meter.context()));
  const rough = (): boolean => isRough(answer(), reading()?.sampleRate ?? 1, settings.temperatureC(), settings.kind());
  return (
    <section
      id="answer"
      class="answer"
      aria-label="What to do"
      data-run={meter.run()}
      data-old={String(isOld({ run: meter.run, reading }))}
      data-patching={String(patching())}
      data-state={answer()?.state ?? ''}
      data-reason={answer()?.reason ?? ''}
      data-polarity={answer()?.polarity ?? ''}
      data-delay-samples={dataNumber(answer()?.delaySamples)}
      data-delay-ms={dataNumber(delayMs(), 6)}
      data-path-cm={dataNumber(path())}
      data-uncertainty-samples={dataNumber(answer()?.uncertaintySamples)}
      data-spread-samples={dataNumber(answer()?.spreadSamples)}
      data-action={advice()?.action ?? ''}
      data-move-cm={dataNumber(advice()?.moveCm)}
      data-delay-later-ms={dataNumber(advice()?.delayLaterMs)}
      data-fuller={reading()?.sum.fuller ?? ''}
      data-fuller-db={dataNumber(reading()?.sum.fullerDb)}
      data-hits={reading()?.hits ?? 0}
      data-hits-used={answer()?.hitsUsed ?? 0}
      data-drum={reading()?.drum ?? ''}
      data-drum-chosen={String(reading()?.drumChosen ?? false)}
      data-sample-rate={reading()?.sampleRate ?? ''}
      data-invert-b={String(meter.invertB())}
      data-swapped={String(meter.swapped())}
      data-held={String(meter.held())}
      data-reading-seconds={dataNumber(reading()?.streamSeconds, 6)}
    >
      <p class="pair">
        <strong title={pairTitle()}>{pairTitle()}</strong>
        <Flags />
      </p>
      <div class="answer-text" ref={createFit}>
        <h1 class={`advice ${sizeOf(headline())}`} id="advice">
          <Unbroken text={headline()} />
        </h1>
        <p class="advice-whole" id="advice-text" classList={{ unseen: saidTwice() }}>
          <Unbroken text={rest()} />
        </p>
        <Show when={!patching()}>
          <div class="sure" data-rough={String(rough())}>
            <StateMark
              state={answer()?.state ?? null}
              have={answer()?.hitsPooled ?? 0}
              need={reading()?.hitsNeeded ?? 4}
              rough={rough()}
              old={isOld({ run: meter.run, reading })}
            />
            <p id="sureness">
              <Show when={rough()}>
                <b>Polarity certain, distance approximate:</b>{' '}
              </Show>
              <Unbroken text={advice()?.sureness ?? ''} />
            </p>
          </div>
        </Show>
        <ul class="notes">
          <For each={notes()}>
            {(note) => (
              <li>
                <Unbroken text={note} />
              </li>
            )}
          </For>
        </ul>
        <Show when={notes().length > 0}>
          <p class="more">There’s more to know: press Why?</p>
        </Show>
      </div>
      <Show when={!patching()}>
        <div class="answer-side" ref={createFit}>
          <div class="push">
            <PushMark polarity={answer()?.polarity ?? null} aWay={props.aWay} shiftShare={(delayMs() ?? 0) / 1.5} />
            <p>
              <b>{answer()?.polarity ?? 'no polarity reading'}</b>
              <br />
              <Unbroken text={figures().path} />
              <br />
              <span class="quiet">{figures().delay}</span>
            </p>
            <div class="push-presses">
              <Press of="why" onPress={() => setOver('why')} title="Hits used, and hits left out">
                Why?
              </Press>
              <Press
                of="try"
                onPress={() => setOver('try')}
                title="What inverting, moving or trimming B would do to the sum"
              >
                Try it
              </Press>
            </div>
          </div>
          <Alternatives />
        </div>
      </Show>
      <ul class="notes cautions-now" aria-label="Cautions">
        <For each={advice()?.cautions ?? []}>{(caution) => <li class="caution">{caution}</li>}</For>
      </ul>
      <SpokenAnswer />
    </section>
  );
}
