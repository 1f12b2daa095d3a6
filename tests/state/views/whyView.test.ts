import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Pictures, PictureWish } from '../../../src/reading/hitPictures';
import type { HitReading, Reading } from '../../../src/reading/reading';
import { createMeter } from '../../../src/state/meter/meter';
import type { Meter } from '../../../src/state/meter/meterTypes';
import { memoryKeeper } from '../../../src/state/settings/keeper';
import { createSettings } from '../../../src/state/settings/settings';
import { alignable, createWhyView, type Look, wishOf } from '../../../src/state/views/whyView';
import { drum, measured, reading } from '../../advice/readings';
import type { Flat } from '../../support/readings/flat';
import { fakeDoor, type Opening, SCENE, settle } from '../fakeDoor';

const LOOK: Look = { aligned: true, serial: 0, near: false, invertB: false };

function hit(serial: number, fate: HitReading['fate'] = 'used'): HitReading {
  const levels = { levelADbfs: -10, levelBDbfs: -10, correlation: null, bandCorrelation: [null, null, null, null] };
  return { serial, timeSeconds: serial, delaySamples: 20, polarity: 'same', fate, drum: null, ...levels };
}
const heard = (n: number, fields: Partial<Flat> = {}): Reading =>
  measured('same', 14, { hits: n, perHit: Array.from({ length: n }, (_, i) => hit(i + 1)), ...fields });
const drawn = (wish: PictureWish, newest: number): Pictures => ({
  wish,
  hits: [{ serial: newest, only: null } as Pictures['hits'][number]],
  close: null,
});

describe('what is asked for', () => {
  const r = heard(6, { delaySamples: 96.04, sampleRate: 48000 });
  it('aligned: B by the reading’s delay, to a tenth of a sample', () => {
    expect(wishOf(r, LOOK).alignSamples).toBe(96);
    expect(wishOf(reading(), LOOK).alignSamples).toBeNull();
  });

  it('nothing to align at where no arrival is read', () => {
    expect(alignable(r)).toBe(true);
    expect(alignable(heard(6, { delaySamples: 0 }))).toBe(true);
    expect(alignable(reading({ state: 'unclear', reason: 'lows-only-b', hits: 6 }))).toBe(false);
    expect(alignable(null)).toBe(false);
  });

  it('as recorded: a window that holds both first pushes', () => {
    const aligned = wishOf(r, LOOK);
    const recorded = wishOf(r, { ...LOOK, aligned: false });
    expect(recorded.alignSamples).toBeNull();
    // 96.04 samples are just over 2 ms
    expect(recorded.lengthMs - aligned.lengthMs).toBe(3);
    expect(recorded.closeLengthMs - aligned.closeLengthMs).toBe(3);
  });

  it('the large one: all of it, or the first push', () => {
    const all = wishOf(r, { ...LOOK, serial: 5 });
    expect([all.closeSerial, all.closeFromMs, all.closeLengthMs]).toEqual([5, all.fromMs, all.lengthMs]);
    const near = wishOf(r, { ...LOOK, serial: 5, near: true });
    expect(near.closeLengthMs).toBeLessThan(all.closeLengthMs / 2);
    expect(near.closeFromMs).toBeLessThan(0);
  });
});

describe('the first pushes alone', () => {
  const pushes = { fromMs: -0.3, lengthMs: 2, bFirst: false };
  it('are asked for as recorded, from A’s arrival on, and none of them large', () => {
    const wish = wishOf(heard(6), { ...LOOK, serial: 5, pushes });
    expect([wish.alignSamples, wish.fromMs, wish.lengthMs, wish.closeSerial]).toEqual([0, -0.3, 2, 0]);
  });

  it('are not shown where the other page looks, nor the other page’s here', () => {
    const asked: PictureWish[] = [];
    const view = createWhyView(
      () => ({ pictures: (wish) => void asked.push(wish) }),
      () => 0,
    );
    view.look(heard(6), { ...LOOK, pushes });
    view.answer(drawn({ ...(asked[0] as PictureWish), fromMs: Math.fround(-0.3) }, 6));
    expect(view.pictures()?.hits[0]?.serial).toBe(6);
    view.look(heard(6), LOOK);
    expect(view.pictures()).toBeNull();
    expect(asked[1]?.fromMs).toBe(-2);
    // the answer to the question before comes late
    view.answer(drawn(asked[0] as PictureWish, 6));
    expect(view.pictures()).toBeNull();
    view.answer(drawn(asked[1] as PictureWish, 6));
    expect(view.pictures()?.wish.fromMs).toBe(-2);
  });
});

describe('pictures are asked for', () => {
  const asked: PictureWish[] = [];
  const clock = { ms: 1000 };
  let link: { pictures(wish: PictureWish): void } | null;
  let view: ReturnType<typeof createWhyView>;
  const pass = (ms: number): void => {
    clock.ms += ms;
    vi.advanceTimersByTime(ms);
  };
  beforeEach(() => {
    vi.useFakeTimers();
    asked.length = 0;
    link = { pictures: (wish) => void asked.push(wish) };
    view = createWhyView(
      () => link,
      () => clock.ms,
    );
  });
  afterEach(() => void vi.useRealTimers());
  const answer = (newest: number): void => view.answer(drawn(asked.at(-1) as PictureWish, newest));

  it('not at all while nobody looks', () => {
    pass(5000);
    expect(asked).toEqual([]);
    view.answer(drawn(wishOf(heard(1), LOOK), 1));
    expect(view.pictures()).toBeNull();
  });

  it('at once, then only when something is new, four times a second at most', () => {
    view.look(heard(5), LOOK);
    expect(asked.length).toBe(1);
    answer(5);
    expect(view.pictures()?.hits[0]?.serial).toBe(5);
    for (let i = 0; i < 100; i++) {
      view.look(heard(5), LOOK);
      pass(25);
    }
    expect(asked.length).toBe(1);
    // a drummer who is faster than that
    for (let i = 0; i < 40; i++) {
      view.look(heard(6 + i), LOOK);
      answer(6 + i);
      pass(25);
    }
    expect(asked.length).toBeGreaterThanOrEqual(4);
    expect(asked.length).toBeLessThanOrEqual(6);
  });

  it('the last change is not lost, also when no reading follows', () => {
    view.look(heard(5), LOOK);
    answer(5);
    pass(20);
    view.look(heard(6), LOOK);
    expect(asked.length).toBe(1);
    pass(250);
    expect(asked.length).toBe(2);
  });

  it('at once when a person wants another sight, on hold and at the end too', () => {
    view.look(heard(5), LOOK);
    answer(5);
    pass(10);
    for (const look of [
      { ...LOOK, aligned: false },
      { ...LOOK, serial: 3 },
      { ...LOOK, near: true, serial: 3 },
      { ...LOOK, invertB: true },
    ]) {
      const before = asked.length;
      view.look(heard(5), look);
      expect(asked.length).toBe(before + 1);
      answer(5);
    }
  });

  it('one at a time; a meter that does not answer is asked again', () => {
    view.look(heard(5), LOOK);
    view.look(heard(5), { ...LOOK, aligned: false });
    expect(asked.length).toBe(1);
    answer(5);
    expect(asked.length).toBe(2);
    view.look(heard(6), { ...LOOK, aligned: false });
    pass(1000);
    expect(asked.length).toBe(2);
    pass(1000);
    expect(asked.length).toBe(3);
  });

  it('anew after a restart or with another source: old pictures are not shown beside new hits', () => {
    view.look(heard(5), LOOK);
    answer(5);
    view.look(heard(2), LOOK);
    expect(view.pictures()).toBeNull();
    pass(300);
    answer(2);
    view.look(null, LOOK);
    expect(view.pictures()).toBeNull();
  });

  it('from nobody when the source is closed', () => {
    link = null;
    view.look(heard(5), LOOK);
    pass(3000);
    expect(asked).toEqual([]);
  });
});

describe('the meter', () => {
  async function playing(): Promise<{ meter: Meter; demo: Opening; clock: { ms: number }; frame(): void }> {
    const { door, openings } = fakeDoor();
    const frames: (() => void)[] = [];
    const clock = { ms: 0 };
    const settings = createSettings(memoryKeeper());
    const meter = createMeter({ door, settings, schedule: (paint) => void frames.push(paint), nowMs: () => clock.ms });
    const opened = meter.open({ type: 'demo', scene: SCENE });
    await settle();
    const demo = openings[0] as Opening;
    await demo.letIn();
    await opened;
    return { meter, demo, clock, frame: () => frames.splice(0).forEach((paint) => void paint()) };
  }

  it('hands pictures through from its source', async () => {
    const { meter, demo } = await playing();
    meter.look(heard(4), LOOK);
    expect(demo.wishes).toEqual([wishOf(heard(4), LOOK)]);
    demo.events.onPictures?.(drawn(demo.wishes[0] as PictureWish, 4));
    expect(meter.pictures()?.hits[0]?.serial).toBe(4);
    meter.look(null, null);
    expect(meter.pictures()).toBeNull();
  });

  it('reads the drum that is chosen: its answer shows at once, the trace is marked, and the other’s is no value before', async () => {
    const { meter, demo, clock, frame } = await playing();
    const drums = [drum(1), drum(2)];
    demo.events.onReading(measured('same', 14, { drum: 1, drums }));
    frame();
    meter.chooseDrum(2);
    expect(demo.log).toContain('drum 2');
    expect(meter.history.marks.at(-1)?.kind).toBe('drum');
    demo.events.onReading(measured('inverted', -6, { drum: 2, drumChosen: true, drums }));
    frame();
    expect(meter.advice()?.sureness).toContain('drum 2, your choice');
    expect(meter.previous()).toBeNull();
    // the same drum after a move: there is one
    clock.ms = 1000;
    demo.events.onReading(measured('inverted', -6, { drum: 2, drums, hits: 8 }));
    frame();
    demo.events.onReading(measured('inverted', 2, { drum: 2, drums, hits: 10 }));
    frame();
    demo.events.onReading(measured('inverted', 2, { drum: 2, drums, hits: 14 }));
    frame();
    expect(meter.previous()).toMatchObject({ polarity: 'inverted', pathCm: expect.closeTo(-6, 3) });
    meter.chooseDrum(null);
    expect(demo.log).toContain('drum null');
  });

  it('draws a hit of another drum as one that does not count', async () => {
    const { meter, demo } = await playing();
    const perHit = [
      { ...hit(1), drum: 1 },
      { ...hit(2), drum: 2 },
    ];
    demo.events.onReading(measured('same', 14, { drum: 1, drums: [drum(1), drum(2)], hits: 2, perHit }));
    expect(meter.history.hits.map((one) => one.counted)).toEqual([true, false]);
  });
});
