import { describe, expect, it } from 'vitest';
import { createMeter } from '../../../src/state/meter/meter';
import type { Meter } from '../../../src/state/meter/meterTypes';
import { memoryKeeper } from '../../../src/state/settings/keeper';
import { createSettings, type Settings } from '../../../src/state/settings/settings';
import type { AskedPair } from '../../../src/state/source/askedPair';
import { drum, measured, sumOf } from '../../advice/readings';
import type { Flat } from '../../support/readings/flat';
import { fakeDoor, settle } from '../fakeDoor';

interface Bench {
  meter: Meter;
  settings: Settings;
  /** two drums unless told: 2 the loudest in A, 1 the loudest in B */
  hear(fields?: Partial<Flat>): void;
  end(): void;
  frame(): void;
}

const TWO = [drum(2, { levelADbfs: -8, levelBDbfs: -20 }), drum(1, { levelADbfs: -14, levelBDbfs: -9 })];

async function recording(pair?: AskedPair): Promise<Bench> {
  const { door, openings } = fakeDoor();
  const settings = createSettings(memoryKeeper());
  const paints: (() => void)[] = [];
  let seconds = 0;
  const meter = createMeter({
    door,
    settings,
    schedule: (paint) => void paints.push(paint),
    nowMs: () => seconds * 1e3,
  });
  const opened = meter.open({ type: 'recording', files: [], mode: 'analyse', ...(pair && { pair }) });
  await settle();
  await openings[0]?.letIn();
  await opened;
  const frame = (): void => {
    for (const paint of paints.splice(0)) paint();
  };
  return {
    meter,
    settings,
    frame,
    hear(fields = {}) {
      seconds += 1;
      const both = { drum: 2, drums: TWO, hits: 12, streamSeconds: seconds };
      openings[0]?.events.onReading(measured('same', 3, { ...both, ...fields }));
      frame();
    },
    end() {
      openings[0]?.events.onEnded();
      frame();
    },
  };
}

const names = (meter: Meter): [number, string][] => [...(meter.context().drumNames ?? [])];
const pair = (fields: Partial<AskedPair>): AskedPair => ({ kind: 'other', labels: ['', ''], drum: '', ...fields });

describe('a drum that is heard', () => {
  it('has no name until somebody says it, and keeps it while it is heard', async () => {
    const { meter, hear } = await recording();
    meter.nameDrum(1, 'kick');
    expect(names(meter)).toEqual([]);
    hear();
    expect(names(meter)).toEqual([]);
    meter.nameDrum(1, '  Floor   TOM ');
    meter.nameDrum(2, 'Piccolo, the old one');
    expect(names(meter)).toEqual([
      [1, 'floor tom'],
      [2, 'Piccolo, the old one'],
    ]);
    hear({ drums: [...TWO].reverse(), drum: 1 });
    meter.nameDrum(2, ' ');
    expect(names(meter)).toEqual([[1, 'floor tom']]);
    hear({ drums: [drum(2), drum(3)] });
    hear();
    expect(names(meter)).toEqual([]);
  });

  it('of a name keeps 40 letters', async () => {
    const { meter, hear } = await recording();
    hear();
    meter.nameDrum(2, 'x'.repeat(60));
    expect(names(meter)).toEqual([[2, 'x'.repeat(40)]]);
  });

  it('loses it where the hits begin again: the numbers are given anew, also where the first reading has one already', async () => {
    const { meter, hear } = await recording();
    hear();
    meter.nameDrum(2, 'snare');
    meter.startOver();
    hear({ streamSeconds: 0.25, hits: 1 });
    expect(names(meter)).toEqual([]);
  });
});

describe('the drum that the pair is about', () => {
  it('is the loudest in the microphone that is close to it, as the labels say, also while another is looked at', async () => {
    const one = await recording(pair({ labels: ['Snare top', 'Overhead left'] }));
    one.hear();
    expect(names(one.meter)).toEqual([[2, 'snare']]);
    one.hear({ drum: 1, drumChosen: true });
    expect(names(one.meter)).toEqual([[2, 'snare']]);
    const two = await recording(pair({ labels: ['OH L', 'Sn'] }));
    two.hear();
    expect(names(two.meter)).toEqual([[1, 'snare']]);
    // A and B the other way round
    two.meter.swap();
    two.hear();
    expect(names(two.meter)).toEqual([[2, 'snare']]);
  });

  it('is the one that is shown, where somebody said what the pair is about', async () => {
    const { meter, settings, hear } = await recording(pair({ labels: ['OH L', 'OH R'], drum: 'ride' }));
    hear();
    expect(names(meter)).toEqual([[2, 'ride']]);
    hear({ drum: 1, drumChosen: true });
    expect(names(meter)).toEqual([[1, 'ride']]);
    settings.setDrum('crash');
    expect(names(meter)).toEqual([[1, 'crash']]);
  });

  it('gives way to what a person calls the drums', async () => {
    const { meter, hear } = await recording(pair({ labels: ['Snare top', 'Snare bottom'] }));
    hear();
    meter.nameDrum(2, 'kick');
    expect(names(meter)).toEqual([[2, 'kick']]);
    meter.nameDrum(1, 'Snare');
    expect(names(meter)).toEqual([
      [2, 'kick'],
      [1, 'snare'],
    ]);
    meter.nameDrum(2, '');
    expect(names(meter)).toEqual([[1, 'snare']]);
    // no name is what a person said, too
    meter.nameDrum(1, '');
    expect(names(meter)).toEqual([]);
  });

  it('is none where the labels name two drums, or none', async () => {
    for (const labels of [
      ['Snare', 'Kick'],
      ['OH L', 'OH R'],
      ['', ''],
    ] as const) {
      const { meter, hear } = await recording(pair({ labels }));
      hear();
      expect(names(meter)).toEqual([]);
    }
  });
});

it('a name that is given after the end of a recording is in the advice at once', async () => {
  const { meter, settings, hear, end, frame } = await recording(pair({ kind: 'same-side' }));
  hear({ delaySamples: 30, ...sumOf({ polarity: 'same', delaySamples: 30 }) });
  end();
  expect(meter.advice()?.action).toBe('move');
  expect(meter.advice()?.text).not.toContain('Spare');
  settings.setLabel(1, 'Spare');
  frame();
  expect(meter.advice()?.text).toContain('B (Spare)');
});
