import { describe, expect, it } from 'vitest';
import type { Reading } from '../../../src/reading/reading';
import { createMeter } from '../../../src/state/meter/meter';
import type { Meter } from '../../../src/state/meter/meterTypes';
import { createOffsetMemory } from '../../../src/state/offset/offsetMemory';
import { type Keeper, memoryKeeper } from '../../../src/state/settings/keeper';
import { createSettings } from '../../../src/state/settings/settings';
import { measured, reading } from '../../advice/readings';
import { fakeDoor, type Opening, SCENE, settle } from '../fakeDoor';

const SURE = { hits: 5, agreeing: 5, offsetSamples: 12.3, scatterSamples: 0, polarity: 'same', height: 1 } as const;

interface Bench {
  meter: Meter;
  input: Opening;
  openings: Opening[];
  frame(): void;
}

async function live(keeper: Keeper): Promise<Bench> {
  const { door, openings } = fakeDoor();
  const frames: (() => void)[] = [];
  const settings = createSettings(keeper);
  const meter = createMeter({ door, settings, schedule: (paint) => void frames.push(paint), nowMs: () => 0 });
  const opened = meter.open({ type: 'interface', deviceId: null });
  await settle();
  await openings[0]?.letIn();
  await opened;
  meter.finishIdentify(false);
  const frame = (): void => {
    for (const paint of frames.splice(0)) paint();
  };
  return { meter, input: openings[0] as Opening, openings, frame };
}

function hear({ input, frame }: Bench, next: Reading = reading({ gauge: SURE })): void {
  input.events.onReading(next);
  frame();
}

/** A keeper that a browser refuses to keep anything in. */
const refusing: Keeper = { get: () => null, set: () => undefined };

describe('the input offset', () => {
  it('is measured on a page of its own, kept on a press, taken out from then on', async () => {
    const bench = await live(memoryKeeper());
    const { meter, input } = bench;
    meter.hold(true);
    meter.beginOffset();
    expect([meter.page(), meter.held()]).toEqual(['offset', false]);
    expect(input.log.at(-1)).toBe('restart swapped false invert false reach 34 setting the offset');
    meter.keepOffset();
    expect(meter.page()).toBe('offset');
    hear(bench);
    expect(meter.offsetFinding()?.fate).toBe('sure');
    meter.keepOffset();
    expect([meter.page(), meter.offsetSamples(), meter.offsetForSession()]).toEqual(['meter', 12.3, false]);
    expect([meter.offsetFinding(), meter.notice()]).toEqual([null, 'Input offset corrected: starting over.']);
    expect(input.log.at(-1)).toBe('restart swapped false invert false reach 11 offset 12.3');
  });

  it('readings from before a change are not shown, and nothing is compared with them', async () => {
    const bench = await live(memoryKeeper());
    const { meter } = bench;
    hear(bench, measured('same', 30));
    meter.beginOffset();
    hear(bench, measured('same', 30));
    expect(meter.reading()).toBeNull();
    hear(bench);
    meter.keepOffset();
    hear(bench);
    hear(bench, measured('same', 30));
    expect(meter.reading()).toBeNull();
    hear(bench, measured('same', 3, { offsetSamples: 12.3 }));
    expect([meter.answer()?.delaySamples, meter.previous()]).toEqual([expect.any(Number), null]);
  });

  it('belongs to the inputs: swapping A and B turns it round', async () => {
    const bench = await live(memoryKeeper());
    const { meter, input } = bench;
    meter.swap();
    meter.beginOffset();
    hear(bench);
    meter.keepOffset();
    expect(meter.offsetSamples()).toBe(12.3);
    expect(input.log.at(-1)).toBe('restart swapped true invert false reach 11 offset 12.3');
    meter.swap();
    expect(meter.offsetSamples()).toBe(-12.3);
    expect(input.log.at(-1)).toBe('restart swapped false invert false reach 11 offset -12.3');
  });

  it('is there the next time for the same device at the same rate, and not after it was removed', async () => {
    const keeper = memoryKeeper();
    const first = await live(keeper);
    first.meter.beginOffset();
    hear(first);
    first.meter.keepOffset();
    const { meter, input } = await live(keeper);
    expect(meter.offsetSamples()).toBe(12.3);
    expect(input.log.at(-1)).toBe('restart swapped false invert false reach 11 offset 12.3');
    meter.removeOffset();
    expect([meter.offsetSamples(), meter.notice()]).toEqual([0, 'Input offset no longer corrected: starting over.']);
    expect(input.log.at(-1)).toBe('restart swapped false invert false reach 11');
    expect((await live(keeper)).meter.offsetSamples()).toBe(0);
  });

  it('refuses what is unsure, whatever is pressed', async () => {
    const bench = await live(memoryKeeper());
    bench.meter.beginOffset();
    hear(bench, reading({ gauge: { ...SURE, agreeing: 3 } }));
    bench.meter.keepOffset();
    hear(bench, reading({ gauge: SURE, bitIdentical: true }));
    bench.meter.keepOffset();
    expect([bench.meter.page(), bench.meter.offsetSamples()]).toEqual(['offset', 0]);
    bench.meter.endOffset();
    expect([bench.meter.page(), bench.input.log.at(-1)]).toEqual([
      'meter',
      'restart swapped false invert false reach 11',
    ]);
  });

  it('holds for the session where storage is refused, and says so', async () => {
    const bench = await live(refusing);
    bench.meter.beginOffset();
    hear(bench);
    bench.meter.keepOffset();
    expect([bench.meter.offsetSamples(), bench.meter.offsetForSession()]).toEqual([12.3, true]);
  });

  it('is not offered for a demo scene or a recording, and is not taken out there', async () => {
    const bench = await live(memoryKeeper());
    const { meter, openings } = bench;
    meter.beginOffset();
    hear(bench);
    meter.keepOffset();
    const opened = meter.open({ type: 'demo', scene: SCENE });
    await settle();
    await openings[1]?.letIn();
    await opened;
    expect(openings[1]?.settings).toEqual({ maxLagMs: 11, swapped: false, invertB: false });
    meter.beginOffset();
    expect([meter.page(), meter.offsetSamples()]).toEqual(['meter', 0]);
    openings[1]?.events.onReading(measured('same', 3));
    expect(meter.offsetFinding()).toBeNull();
  });

  it('an input that is opened again while it is measured goes back to the meter', async () => {
    const bench = await live(memoryKeeper());
    const { meter, input, openings } = bench;
    meter.beginOffset();
    input.events.onProblem({ code: 'input-lost', text: 'The input is gone; plug it in again.' });
    const again = meter.recover();
    await settle();
    await openings[1]?.letIn();
    await again;
    expect([meter.page(), meter.offsetFinding()]).toEqual(['meter', null]);
    expect(openings[1]?.log).toContain('restart swapped false invert false reach 11');
  });
});

describe('the memory of offsets', () => {
  const key = { deviceId: 'd', label: 'an input', sampleRate: 48000, channels: '1,2' };

  it('keeps one for each device, label, rate and pair of channels', () => {
    const memory = createOffsetMemory(memoryKeeper());
    expect(memory.remember(key, 12.3)).toBe(true);
    expect(memory.remember({ ...key, sampleRate: 96000 }, -3)).toBe(true);
    expect(memory.recall(key)).toBe(12.3);
    for (const other of [{ deviceId: 'e' }, { label: 'another' }, { sampleRate: 44100 }, { channels: '3,4' }])
      expect(memory.recall({ ...key, ...other })).toBe(0);
    memory.remember(key, 0);
    expect([memory.recall(key), memory.recall({ ...key, sampleRate: 96000 })]).toEqual([0, -3]);
  });

  it('passes over what is broken', () => {
    for (const text of [
      '',
      '{',
      'null',
      '{"a":1}',
      '[1,[2]]',
      '[["d","an input",48000,"1,2","12"]]',
      '[["d","an input",48000,"1,2",961]]',
      '[["d","an input",48000,"1,2",null]]',
    ]) {
      const keeper = memoryKeeper();
      keeper.set('inputOffsets', text);
      const memory = createOffsetMemory(keeper);
      expect(memory.recall(key), text).toBe(0);
      expect(memory.remember(key, 1.5), text).toBe(true);
      expect(memory.recall(key), text).toBe(1.5);
    }
  });
});
