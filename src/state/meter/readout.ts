/** From readings to what is shown: history at every reading, advice and signals once a frame. */
import { type Accessor, batch, createSignal } from 'solid-js';
import type { Advice, AdviceContext } from '../../advice/advice';
import { advise } from '../../advice/advise';
import { createSteadyAdvice } from '../../advice/steady';
import { InputIdentifier } from '../../audio/live/inputIdentifier';
import { pathCm } from '../../reading/acoustics';
import { answerOf, type Reading, type Said } from '../../reading/reading';
import { FlashLimiter } from '../views/flash';
import { type MarkKind, TraceHistory } from '../views/traceHistory';
import { type PlainValue, PreviousValue } from './previous';

/** A change asked of the audio thread is heard within this time, ms. */
const TURN_MS = 400;

export interface Readout {
  reading: Accessor<Reading | null>;
  /** what the reading says */
  answer: Accessor<Said | null>;
  /** the reading is of what is set now: no invert, swap, drum or restart was asked for since */
  fresh: Accessor<boolean>;
  advice: Accessor<Advice | null>;
  previous: Accessor<PlainValue | null>;
  /** counts hits worth a flash; at most three a second */
  flashes: Accessor<number>;
  history: TraceHistory;
  /** which input someone spoke close to; null until one stands out */
  heard: Accessor<1 | 2 | null>;
  /** forget what was heard, and listen for the next */
  listenAgain(): void;
}

export interface ReadoutActions {
  /** the newest reading; `identifying`: levels tell which input is which */
  take(reading: Reading, identifying: boolean): void;
  /** mark the trace */
  note(mark: MarkKind): void;
  /** a person changed the pair: mark it, and let the next reading speak at once */
  turn(mark: MarkKind): void;
  /** the same reading in another light: kind or temperature */
  rethink(): void;
  /** the last reading, and what `change` does, shown together and now */
  settle(change: () => void): void;
  /** another source: forget everything */
  clear(): void;
}

export interface ReadoutOptions {
  context: Accessor<AdviceContext>;
  /** runs `paint` before the next frame; once per call */
  schedule(paint: () => void): void;
  nowMs(): number;
}

export function createReadout({ context, schedule, nowMs }: ReadoutOptions): Readout & ReadoutActions {
  const [reading, setReading] = createSignal<Reading | null>(null, { equals: false });
  const [fresh, setFresh] = createSignal(false);
  const [advice, setAdvice] = createSignal<Advice | null>(null);
  const [previous, setPrevious] = createSignal<PlainValue | null>(null);
  const [flashes, setFlashes] = createSignal(0);
  const [heard, setHeard] = createSignal<1 | 2 | null>(null);

  const history = new TraceHistory();
  const identifier = new InputIdentifier();
  const steady = createSteadyAdvice();
  const before = new PreviousValue();
  const flash = new FlashLimiter();
  let newest: Reading | null = null;
  let newestIsFresh = false;
  let scheduled = false;
  let hitsSeen = 0;
  let drum: number | null = null;
  let turningUntilMs = Number.NEGATIVE_INFINITY;

  function think(next: Reading): void {
    // readings sent before a person's change was heard still arrive: they must neither settle nor hold anything back
    const turning = nowMs() < turningUntilMs;
    if (turning) steady.reset();
    // another drum has another delay: nothing of it is the value before
    if (next.drum !== null && next.drum !== drum) {
      if (drum !== null) {
        steady.reset();
        before.clear();
      }
      drum = next.drum;
    }
    const said = answerOf(next);
    if (!turning && said.state === 'measured') {
      const seconds = said.delaySamples / next.sampleRate;
      const path = pathCm(seconds, context().temperatureC);
      before.update({ polarity: said.polarity, delayMs: seconds * 1000, pathCm: path }, next.hits);
    }
    setAdvice(steady.feed(advise(next, context()), next));
    setPrevious(before.previous);
  }

  function paint(): void {
    scheduled = false;
    const next = newest;
    if (next === null) return;
    batch(() => {
      if (next.hits > hitsSeen && flash.allow(nowMs())) setFlashes((n) => n + 1);
      hitsSeen = next.hits;
      think(next);
      setFresh(newestIsFresh);
      setReading(next);
    });
  }

  function ask(): void {
    if (scheduled) return;
    scheduled = true;
    schedule(paint);
  }

  return {
    reading,
    answer: () => {
      const now = reading();
      return now && answerOf(now);
    },
    fresh,
    advice,
    previous,
    flashes,
    history,
    heard,
    listenAgain() {
      identifier.reset();
      setHeard(null);
    },
    take(next, identifying) {
      newest = next;
      newestIsFresh = true;
      if (identifying) {
        const moved = identifier.push(next.streamSeconds, next.inputs.a.rmsDbfs, next.inputs.b.rmsDbfs);
        if (moved !== null && heard() === null) setHeard(moved === 'a' ? 1 : 2);
      }
      history.push(next);
      ask();
    },
    note: (mark) => history.mark(mark),
    turn(mark) {
      history.mark(mark);
      newestIsFresh = false;
      setFresh(false);
      steady.reset();
      before.turn();
      turningUntilMs = nowMs() + TURN_MS;
    },
    rethink() {
      steady.reset();
      if (newest) ask();
    },
    settle(change) {
      batch(() => {
        change();
        steady.reset();
        paint();
      });
    },
    clear() {
      newest = null;
      newestIsFresh = false;
      drum = null;
      hitsSeen = 0;
      turningUntilMs = Number.NEGATIVE_INFINITY;
      history.clear();
      identifier.reset();
      steady.reset();
      before.clear();
      batch(() => {
        setHeard(null);
        setFresh(false);
        setReading(null);
        setAdvice(null);
        setPrevious(null);
      });
    },
  };
}
