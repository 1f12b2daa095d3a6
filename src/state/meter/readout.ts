/**
 * From readings to what is shown: history at every reading, advice and signals once a frame. Where frames don't come, in a
 * tab that is hidden or behind others, readings themselves bring them on: what happens is noticed whether it is looked at or not.
 */
import { type Accessor, batch, createSignal } from 'solid-js';
import type { Advice, AdviceContext } from '../../advice/advice';
import type { Action } from '../../advice/plan/alternatives';
import { InputIdentifier } from '../../audio/live/inputIdentifier';
import { answerOf, type Reading, type Said } from '../../reading/reading';
import { type MarkKind, TraceHistory } from '../views/traceHistory';
import { Adviser } from './adviser';
import { FlashLimiter } from './flash';
import { NewestHit } from './newestHit';
import type { PlainValue } from './previous';

/** a frame that hasn't come by then isn't waited for, ms */
const FRAME_MS = 100;

export interface Readout {
  reading: Accessor<Reading | null>;
  /** what the reading says */
  answer: Accessor<Said | null>;
  /** what the advice that is shown stands on: the same, but while another action waits for a second hit */
  standsOn: Accessor<Said | null>;
  /** the reading is of what is set now: no invert, swap, drum or restart was asked for since */
  fresh: Accessor<boolean>;
  advice: Accessor<Advice | null>;
  previous: Accessor<PlainValue | null>;
  /** the shown drum's newest hit, where that is some time ago; null: it isn't */
  lastHitAt: Accessor<Date | null>;
  /** counts hits worth a flash; at most three a second */
  flashes: Accessor<number>;
  history: TraceHistory;
  /** which input someone spoke close to; null until one stands out */
  heard: Accessor<1 | 2 | null>;
  /** someone speaks, and it is in both alike */
  heardAlike: Accessor<boolean>;
  /** forget what was heard, and listen for the next */
  listenAgain(): void;
}

export interface ReadoutActions {
  /** when the newest reading came that was of any data; null: none did of this source */
  newestAt(): Date | null;
  /** the newest reading; `identifying`: levels tell which input is which */
  take(reading: Reading, identifying: boolean): void;
  /** mark the trace */
  note(mark: MarkKind): void;
  /** a person changed the pair: mark it, and let the next reading speak at once */
  turn(mark: MarkKind): void;
  /** the same reading in another light: kind or temperature */
  rethink(): void;
  /** a person takes this one of the alternatives; null: the recommended one again */
  choose(action: Action | null): void;
  /** what waits for a frame is shown without one */
  paintNow(): void;
  /** the last reading, and what `change` does, shown together and now */
  settle(change: () => void): void;
  /** what is on the screen counts no more: nothing is shown until the next reading */
  blank(): void;
  /** another source: forget everything */
  clear(): void;
}

export interface ReadoutOptions {
  context: Accessor<AdviceContext>;
  /** runs `paint` before the next frame; once per call */
  schedule(paint: () => void): void;
  nowMs(): number;
  clock(): Date;
  /** how B is turned over is shown with the first reading that is of it, or with none */
  showTurned(): void;
}

export function createReadout({
  context,
  schedule,
  nowMs,
  clock,
  showTurned,
}: ReadoutOptions): ReadoutActions & { shown: Readout } {
  const [reading, setReading] = createSignal<Reading | null>(null, { equals: false });
  const [fresh, setFresh] = createSignal(false);
  const [advice, setAdvice] = createSignal<Advice | null>(null);
  const [standsOn, setStandsOn] = createSignal<Said | null>(null);
  const [previous, setPrevious] = createSignal<PlainValue | null>(null);
  const [lastHitAt, setLastHitAt] = createSignal<Date | null>(null);
  const [flashes, setFlashes] = createSignal(0);
  const history = new TraceHistory();
  const spoken = createSpoken();
  const adviser = new Adviser();
  const newestHit = new NewestHit();
  const flash = new FlashLimiter();
  let newest: Reading | null = null;
  let newestIsFresh = false;
  let newestAt: Date | null = null;
  let scheduled = false;
  let scheduledMs = 0;
  let hitsSeen = 0;

  function paint(): void {
    scheduled = false;
    const next = newest;
    if (next === null) return;
    batch(() => {
      if (next.hits > hitsSeen && flash.allow(nowMs())) setFlashes((n) => n + 1);
      hitsSeen = next.hits;
      if (newestIsFresh) showTurned();
      setAdvice(adviser.think(next, context(), nowMs()));
      setStandsOn(adviser.answer);
      setPrevious(adviser.previous);
      setFresh(newestIsFresh);
      setLastHitAt(newestHit.told(next, clock));
      setReading(next);
    });
  }

  function ask(): void {
    if (scheduled) {
      if (nowMs() - scheduledMs < FRAME_MS) return;
      // the frame that was asked for may still come: it paints what is newest then
      paint();
      scheduled = true;
      scheduledMs = nowMs();
      return;
    }
    scheduled = true;
    scheduledMs = nowMs();
    schedule(paint);
  }

  function blank(): void {
    newest = null;
    newestIsFresh = false;
    batch(() => {
      showTurned();
      setFresh(false);
      setReading(null);
      setAdvice(null);
      setStandsOn(null);
    });
  }

  const answer = (): Said | null => {
    const now = reading();
    return now && answerOf(now);
  };
  const { heard, heardAlike, listenAgain } = spoken;
  return {
    shown: {
      reading,
      answer,
      standsOn,
      fresh,
      advice,
      previous,
      lastHitAt,
      flashes,
      history,
      heard,
      heardAlike,
      listenAgain,
    },
    newestAt: () => newestAt,
    take(next, identifying) {
      newest = next;
      if (next.inputs.a.peakDbfs !== null || next.inputs.b.peakDbfs !== null) newestAt = clock();
      newestIsFresh = true;
      if (identifying) spoken.hear(next);
      history.push(next);
      ask();
    },
    note: (mark) => history.mark(mark),
    turn(mark) {
      history.mark(mark);
      newestIsFresh = false;
      batch(() => {
        setFresh(false);
        if (newest === null) showTurned();
      });
      adviser.turn(nowMs());
    },
    rethink() {
      adviser.rethink();
      if (newest) ask();
    },
    choose(action) {
      adviser.choose(action);
      if (newest) ask();
    },
    paintNow() {
      if (scheduled) paint();
    },
    settle(change) {
      batch(() => {
        change();
        adviser.rethink();
        paint();
      });
    },
    blank,
    clear() {
      hitsSeen = 0;
      newestAt = null;
      newestHit.clear();
      history.clear();
      adviser.clear();
      batch(() => {
        blank();
        spoken.listenAgain();
        setPrevious(null);
      });
    },
  };
}

/** Which input someone spoke close to. */
function createSpoken(): Pick<Readout, 'heard' | 'heardAlike' | 'listenAgain'> & { hear(reading: Reading): void } {
  const [heard, setHeard] = createSignal<1 | 2 | null>(null);
  const [heardAlike, setHeardAlike] = createSignal(false);
  const identifier = new InputIdentifier();
  return {
    heard,
    heardAlike,
    listenAgain() {
      identifier.reset();
      setHeardAlike(false);
      setHeard(null);
    },
    hear({ streamSeconds, inputs }) {
      const moved = identifier.push(streamSeconds, inputs.a.rmsDbfs, inputs.b.rmsDbfs);
      if (moved !== null && heard() === null) setHeard(moved === 'a' ? 1 : 2);
      setHeardAlike(heard() === null && identifier.alike);
    },
  };
}
