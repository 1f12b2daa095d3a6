import { describe, expect, it } from 'vitest';
import { DataWatch, FIRST_DATA_MS, NO_DATA_MS, type WatchClock } from '../../src/audio/dataWatch';

/** A clock under the test's hand; timers come no more often than the page lets them. */
function fakeClock(leastMs = 0) {
  let ms = 0;
  let timers: { dueMs: number; everyMs: number; act: () => void }[] = [];
  const waiting: (() => void)[] = [];
  const messages: (() => void)[] = [];
  const clock: WatchClock = {
    nowMs: () => ms,
    every(wantedMs, act) {
      const everyMs = Math.max(leastMs, wantedMs);
      const timer = { dueMs: ms + everyMs, everyMs, act };
      timers.push(timer);
      return () => {
        timers = timers.filter((one) => one !== timer);
      };
    },
    afterMessages: (act) => void waiting.push(act),
  };
  /** One turn of the page: timers that are due, then messages, then what waits behind those. */
  const turn = (): void => {
    for (const timer of timers) {
      if (timer.dueMs > ms) continue;
      timer.dueMs = ms + timer.everyMs;
      timer.act();
    }
    for (const take of messages.splice(0)) take();
    for (const act of waiting.splice(0)) act();
  };
  return {
    clock,
    messages,
    now: () => ms,
    timers: () => timers.length,
    /** the page is awake */
    pass(forMs: number, each?: (ms: number) => void): void {
      for (const end = ms + forMs; ms < end; ) {
        ms += 25;
        each?.(ms);
        turn();
      }
    },
    /** the page is busy: nothing runs */
    block(forMs: number): void {
      ms += forMs;
    },
    turn,
  };
}

function bench(leastMs = 0) {
  const time = fakeClock(leastMs);
  const told: string[] = [];
  const backs: boolean[] = [];
  let paused = false;
  const watch = new DataWatch(
    {
      onNone: () => void told.push(`none ${time.now()}`),
      onSome: (isBack) => {
        told.push(`some ${time.now()}`);
        backs.push(isBack);
      },
      paused: () => paused,
    },
    time.clock,
  );
  let seconds = 0;
  const arrive = (empty = false): void => {
    seconds += 0.025;
    watch.arrived({ streamSeconds: seconds, empty });
  };
  const atMs = (): number[] => told.map((line) => Number(line.split(' ')[1]));
  const pause = (on: boolean): void => {
    paused = on;
  };
  return { ...time, watch, told, backs, atMs, arrive, pause };
}

describe('whether anything arrives', () => {
  it('is never doubted while frames come, in sight or hidden', () => {
    for (const leastMs of [0, 1000]) {
      const { watch, pass, arrive, told } = bench(leastMs);
      watch.begin(true);
      pass(60_000, () => arrive());
      expect(told).toEqual([]);
    }
  });

  it('is denied within 1.3 s of the last frame, and granted with the next', () => {
    const { watch, pass, arrive, told, atMs } = bench();
    watch.begin(true);
    pass(2000, () => arrive());
    pass(3000);
    expect(told.length).toBe(1);
    expect(atMs()[0]).toBeGreaterThanOrEqual(2000 + NO_DATA_MS);
    expect(atMs()[0]).toBeLessThanOrEqual(2000 + NO_DATA_MS + 300);
    arrive();
    expect(told[1]).toBe('some 5000');
    pass(2000);
    expect(told.length).toBe(3);
  });

  it('tells data that are back from the first ones, and from the end', () => {
    const { watch, pass, arrive, backs } = bench();
    watch.begin(true);
    pass(FIRST_DATA_MS + 1000);
    pass(1000, () => arrive());
    expect(backs).toEqual([false]);
    pass(2000);
    pass(1000, () => arrive());
    expect(backs).toEqual([false, true]);
    // zeros: the stream ran on
    pass(2000, () => arrive(true));
    pass(1000, () => arrive());
    expect(backs).toEqual([false, true, false]);
    pass(2000);
    watch.end();
    expect(backs).toEqual([false, true, false, false]);
  });

  it('is denied in a hidden tab too, where timers come once a second', () => {
    const { watch, pass, arrive, atMs, told } = bench(1000);
    watch.begin(true);
    pass(2500, () => arrive());
    pass(3000);
    expect(told.length).toBe(1);
    expect(atMs()[0]).toBeLessThanOrEqual(2500 + 2 * NO_DATA_MS);
  });

  it('is not denied where what has come lies in shared memory: it is taken in first', () => {
    const { watch, pass, block, turn, arrive, told } = bench();
    watch.begin(true);
    pass(2000, () => arrive());
    let lies = 0;
    watch.takeIn = () => {
      for (; lies > 0; lies--) arrive();
    };
    block(4000);
    lies = 100;
    turn();
    expect(told).toEqual([]);
    pass(1500);
    expect(told.length).toBe(1);
  });

  it('is not denied by a page that was busy: the messages that wait are taken in first', () => {
    const { watch, pass, block, turn, messages, arrive, told } = bench();
    watch.begin(true);
    pass(2000, () => arrive());
    block(4000);
    messages.push(() => arrive());
    turn();
    pass(500, () => arrive());
    expect(told).toEqual([]);
  });

  it('is doubted of a new node after five seconds only', () => {
    const { watch, pass, atMs } = bench();
    watch.begin(true);
    pass(FIRST_DATA_MS - 100);
    expect(atMs()).toEqual([]);
    pass(600);
    expect(atMs()[0]).toBeGreaterThanOrEqual(FIRST_DATA_MS);
  });

  it('is denied though frames come: asked for, or of a moment that was seen, or all zero', () => {
    const { watch, pass, arrive, told, atMs } = bench();
    watch.begin(true);
    pass(2000, () => arrive());
    // the answers to a hold and to a start over, while the context stands still
    pass(1500, () => watch.arrived({ streamSeconds: 2, empty: false }));
    expect(told.length).toBe(1);
    watch.arrived({ streamSeconds: 0, empty: false });
    watch.arrived({ streamSeconds: 0, empty: true });
    expect(told.length).toBe(1);
    watch.arrived({ streamSeconds: 0.025, empty: false });
    expect(told.length).toBe(2);

    const frozen = bench();
    frozen.watch.begin(true);
    frozen.pass(2000, () => frozen.arrive());
    // the peaks look back 0.4 s: so long the frames aren't empty yet
    frozen.pass(400, () => frozen.arrive());
    frozen.pass(1200, () => frozen.arrive(true));
    expect(frozen.atMs()[0]).toBeLessThanOrEqual(2000 + NO_DATA_MS + 300);
    expect(atMs().length).toBe(2);
  });

  it('is denied at once when the browser pauses the audio; what was on its way grants nothing', () => {
    const { watch, pass, arrive, pause, told } = bench();
    watch.begin(true);
    pass(2000, () => arrive());
    pause(true);
    watch.pause();
    arrive();
    watch.pause();
    pass(3000);
    expect(told).toEqual(['none 2000']);
    pause(false);
    expect(told.length).toBe(1);
    arrive();
    expect(told[1]).toBe('some 5000');
  });

  it('is no question before the beginning and after the end, and what was said is taken back', () => {
    const { watch, pass, arrive, told, timers } = bench();
    pass(10_000);
    watch.pause();
    watch.begin(true);
    pass(1000, () => arrive());
    pass(2000);
    watch.end();
    pass(10_000);
    expect(told.map((line) => line.split(' ')[0])).toEqual(['none', 'some']);
    expect(timers()).toBe(0);
    watch.begin(false);
    pass(1500);
    expect(told.length).toBe(3);
  });
});
