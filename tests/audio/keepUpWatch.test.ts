/** Whether the stream keeps up, as the page sees it. */
import { describe, expect, it } from 'vitest';
import type { WatchClock } from '../../src/audio/dataWatch';
import { KeepUpWatch } from '../../src/audio/keepUpWatch';

/** A page that looks every `lookMs`; messages come in before it looks. */
function bench(behindShare = 0.03, lookMs = 250) {
  let ms = 0;
  let looks: (() => void)[] = [];
  const told: string[] = [];
  let lost = 0;
  const clock: WatchClock = {
    nowMs: () => ms,
    every(_, act) {
      looks.push(act);
      return () => {
        looks = [];
      };
    },
    afterMessages: (act) => act(),
  };
  const watch = new KeepUpWatch(
    {
      takeIn: () => undefined,
      onDropping: () => told.push(`dropping ${ms / 1000}`),
      onOver: () => told.push(`over ${ms / 1000}`),
      onLost: () => {
        lost++;
      },
    },
    behindShare,
    clock,
  );
  let streamSeconds = 0;
  return {
    watch,
    told,
    lost: () => lost,
    /** @param share seconds of the stream to one of the clock */
    pass(seconds: number, share = 1, dropping = false): void {
      for (const end = ms + 1000 * seconds; ms < end; ) {
        ms += 25;
        streamSeconds += 0.025 * share;
        if (share > 0) watch.arrived({ streamSeconds, empty: false, dropping });
        if (ms % lookMs === 0) for (const look of looks) look();
      }
    },
    restart(): void {
      streamSeconds = 0;
    },
  };
}

const secondsOf = (told: string[]): number[] => told.map((line) => Number(line.split(' ')[1]));

describe('a page that looks on', () => {
  it('says nothing while the stream keeps up, in sight or hidden, over a pause, and when it begins anew', () => {
    for (const lookMs of [250, 1000]) {
      const { watch, told, pass, restart } = bench(0.03, lookMs);
      watch.begin();
      pass(60);
      pass(20, 0);
      pass(30);
      restart();
      pass(60, 1.0002);
      expect(told).toEqual([]);
    }
  });

  it('tells of a stream that falls behind, has the hits voided, and takes it back some seconds later', () => {
    const { watch, told, pass, lost } = bench();
    watch.begin();
    pass(20);
    pass(10, 0.4);
    expect(told.length).toBe(1);
    expect(secondsOf(told)[0]).toBeLessThan(25);
    expect(lost()).toBeGreaterThan(5);
    pass(10);
    expect(told.map((line) => line.split(' ')[0])).toEqual(['dropping', 'over']);
    expect(secondsOf(told)[1]).toBeLessThan(38);
  });

  it('passes on at once what the audio thread says, and has nothing more to void', () => {
    const { watch, told, pass, lost } = bench();
    watch.begin();
    pass(5);
    pass(3, 1, true);
    pass(1);
    expect(told).toEqual(['dropping 5.025', 'over 8.025']);
    expect(lost()).toBe(0);
  });

  it('of a file is told later: it loses nothing', () => {
    const { watch, told, pass } = bench(0.25);
    watch.begin();
    pass(20);
    pass(20, 0.85);
    expect(told).toEqual([]);
    pass(10, 0.5);
    expect(told.length).toBe(1);
  });

  it('takes back what was said at the end', () => {
    const { watch, told, pass } = bench();
    watch.begin();
    pass(5, 1, true);
    watch.end();
    expect(told.map((line) => line.split(' ')[0])).toEqual(['dropping', 'over']);
    pass(5, 1, true);
    expect(told.length).toBe(2);
  });
});
