import { describe, expect, it, vi } from 'vitest';
import { writeWav } from '../../../src/files/writeWav';
import { createMeter } from '../../../src/state/meter/meter';
import type { Meter } from '../../../src/state/meter/meterTypes';
import { memoryKeeper } from '../../../src/state/settings/keeper';
import { createSettings, type Settings } from '../../../src/state/settings/settings';
import { hit } from '../../advice/hits';
import { CM_PER_SAMPLE, measured, reading } from '../../advice/readings';
import { fakeDoor, type Opening, SCENE, settle } from '../fakeDoor';

interface Bench {
  meter: Meter;
  settings: Settings;
  openings: Opening[];
  /** what waits for the next frame */
  frames: (() => void)[];
  frame(): void;
  clock: { ms: number };
}

function bench(): Bench {
  const { door, openings } = fakeDoor();
  const frames: (() => void)[] = [];
  const clock = { ms: 0 };
  const settings = createSettings(memoryKeeper());
  const schedule = (paint: () => void): void => void frames.push(paint);
  const meter = createMeter({ door, settings, schedule, nowMs: () => clock.ms });
  const frame = (): void => {
    for (const paint of frames.splice(0)) paint();
  };
  return { meter, settings, openings, frames, frame, clock };
}

async function playing(): Promise<Bench & { demo: Opening }> {
  const made = bench();
  const opened = made.meter.open({ type: 'demo', scene: SCENE });
  await settle();
  const demo = made.openings[0] as Opening;
  await demo.letIn();
  await opened;
  return { ...made, demo };
}

const LOST = { code: 'input-lost', text: 'The input is gone; plug it in again.' } as const;

describe('sources', () => {
  it('a demo scene brings its own kind and names, and puts the sheet up', async () => {
    const { meter, settings, demo } = await playing();
    expect([meter.page(), meter.run(), meter.sourceLabel()]).toEqual(['meter', 'running', SCENE.title]);
    expect([settings.kind(), ...settings.labels()]).toEqual(['top-bottom', 'above', 'below']);
    expect(demo.settings).toEqual({ maxLagMs: 11, swapped: false, invertB: false });
    await meter.leave();
    expect([meter.page(), settings.kind(), demo.log.at(-1)]).toEqual(['start', 'other', 'close']);
  });

  it('a demo scene’s names are in the advice, A’s and B’s also when they are swapped', async () => {
    const { meter } = await playing();
    expect(meter.context()).toMatchObject({ aLabel: 'above', bLabel: 'below' });
    meter.swap();
    expect(meter.context()).toMatchObject({ aLabel: 'below', bLabel: 'above' });
    await meter.leave();
    expect(meter.context()).not.toHaveProperty('aLabel');
  });

  it('a recording has the kind and the names that it was asked for, and never those of the source before', async () => {
    const { meter, settings, openings } = await playing();
    const pair = { kind: 'close-room', labels: ['Snare', 'Room'], drum: 'snare' } as const;
    let opened = meter.open({ type: 'recording', files: [], mode: 'analyse', pair });
    await openings[1]?.letIn();
    await opened;
    expect(openings[1]?.settings.maxLagMs).toBe(34);
    expect([settings.kind(), ...settings.labels(), settings.drum()]).toEqual(['close-room', 'Snare', 'Room', 'snare']);
    expect(meter.context()).toMatchObject({ kind: 'close-room', aLabel: 'Snare', bLabel: 'Room' });
    // changed on the meter, still of this recording only
    meter.setKind('same-side');
    settings.setLabel(0, 'Snare, the other');
    opened = meter.open({ type: 'recording', files: [], mode: 'play' });
    await settle();
    expect(openings[2]?.settings.maxLagMs).toBe(11);
    await openings[2]?.letIn();
    await opened;
    expect([settings.kind(), ...settings.labels(), settings.drum()]).toEqual(['other', '', '', '']);
    await meter.leave();
    expect([settings.ownKind(), settings.kind(), ...settings.labels()]).toEqual(['other', 'other', '', '']);
  });

  it('what a person set for live inputs is theirs after a recording, and not the recording’s', async () => {
    const { meter, settings, openings } = bench();
    meter.setKind('top-bottom');
    settings.setLabel(1, 'Snare bottom');
    settings.setDrum('snare');
    const opened = meter.open({ type: 'recording', files: [], mode: 'analyse' });
    await settle();
    await openings[0]?.letIn();
    await opened;
    expect([settings.kind(), ...settings.labels(), settings.drum()]).toEqual(['other', '', '', '']);
    await meter.leave();
    void meter.open({ type: 'interface', deviceId: null });
    await settle();
    await openings[1]?.letIn();
    expect([settings.kind(), ...settings.labels(), settings.drum()]).toEqual([
      'top-bottom',
      '',
      'Snare bottom',
      'snare',
    ]);
  });

  it('that can’t be opened leaves the one that runs alone', async () => {
    const { meter, demo, openings, frame } = await playing();
    demo.events.onReading(measured('same', 3));
    frame();
    const opened = meter.open({ type: 'recording', files: [], mode: 'analyse' });
    await settle();
    await openings[1]?.refuse({ code: 'not-audio', text: 'This is not audio.' });
    await opened;
    expect(meter.problem()?.code).toBe('not-audio');
    expect([meter.run(), meter.opening(), meter.answer()?.polarity]).toEqual(['running', false, 'same']);
    expect(demo.log).not.toContain('close');
    demo.events.onReading(measured('inverted', 3));
    frame();
    expect(meter.answer()?.polarity).toBe('inverted');
  });

  it('that is let in takes over, and what the old one still says is not heard', async () => {
    const { meter, demo, openings, frame } = await playing();
    const opened = meter.open({ type: 'recording', files: [], mode: 'play' });
    await settle();
    await openings[1]?.letIn();
    await opened;
    demo.events.onReading(measured('same', 3));
    demo.events.onProblem(LOST);
    frame();
    expect([meter.reading(), meter.problem(), meter.run()]).toEqual([null, null, 'running']);
    expect(demo.log).toContain('close');
  });

  it('that comes too late is closed again', async () => {
    const { meter, openings } = bench();
    void meter.open({ type: 'demo', scene: SCENE });
    await settle();
    await meter.leave();
    await openings[0]?.letIn();
    expect([meter.page(), openings[0]?.log.at(-1)]).toEqual(['start', 'close']);
  });

  it('an interface is identified before the first reading, the answer sets which is A', async () => {
    const { meter, settings, openings, frame } = bench();
    settings.setLabel(0, 'Snare top');
    settings.setLabel(1, 'Snare bottom');
    meter.go('connect');
    void meter.open({ type: 'interface', deviceId: null });
    await settle();
    expect([meter.page(), meter.opening()]).toEqual(['connect', true]);
    await openings[0]?.letIn();
    expect(meter.page()).toBe('identify');
    const speak = (seconds: number, one: number, two: number): void => {
      const level = (rmsDbfs: number) => ({ peakDbfs: rmsDbfs + 10, rmsDbfs, clips: 0, dc: 0, silent: false });
      openings[0]?.events.onReading(reading({ streamSeconds: seconds, a: level(one), b: level(two) }));
    };
    for (let t = 0; t < 1; t += 0.05) speak(t, -60, -62);
    expect(meter.heard()).toBeNull();
    for (let t = 1; t < 2; t += 0.05) speak(t, -58, -25);
    frame();
    expect(meter.heard()).toBe(2);
    meter.listenAgain();
    expect(meter.heard()).toBeNull();
    meter.finishIdentify(true);
    expect([meter.page(), meter.swapped()]).toEqual(['meter', true]);
    // A is what was called A, on whichever input it is
    expect(settings.labels()).toEqual(['Snare bottom', 'Snare top']);
    expect(meter.context()).toMatchObject({ aLabel: 'Snare top', bLabel: 'Snare bottom' });
    expect(openings[0]?.log.at(-1)).toBe('restart swapped true invert false reach 11');
  });

  it('a lost input stops the reading, keeps it, and goes on when the input is back', async () => {
    const { meter, demo, frame } = await playing();
    demo.events.onReading(measured('same', 3));
    frame();
    demo.events.onProblem(LOST);
    demo.events.onReading(measured('inverted', 9));
    frame();
    expect([meter.run(), meter.answer()?.polarity]).toEqual(['stopped', 'same']);
    demo.events.onProblemOver?.('input-lost');
    expect([meter.run(), meter.problem()]).toEqual(['running', null]);
  });

  it('more than two files at once are refused in words', () => {
    const { meter } = bench();
    meter.offerFiles([1, 2, 3].map((i) => new File([], `${i}.wav`)));
    expect(meter.problem()?.text).toMatch(/^Only two of the 3 files can be used: 1\.wav and 2\.wav\./);
    meter.swapFiles();
    expect(meter.files().map((f) => f.name)).toEqual(['2.wav', '1.wav']);
  });

  it('files are asked for what they are: the names are guessed from, what a person says stands', () => {
    const { meter } = bench();
    const named = (...names: string[]): void => meter.offerFiles(names.map((name) => new File([], name)));
    named('02 SNR Btm.wav', '01 SNR Top.wav');
    // the one above is A
    expect(meter.files().map((file) => file.name)).toEqual(['01 SNR Top.wav', '02 SNR Btm.wav']);
    expect(meter.filesPair()).toEqual({ kind: 'top-bottom', labels: ['Snare top', 'Snare bottom'], drum: '' });
    expect(meter.filesGuessed()).toEqual({ kind: true, labels: [true, true], drum: true });
    meter.sayFilesPair({ kind: 'other', labels: ['Snare top', 'Wires'] });
    expect(meter.filesGuessed()).toEqual({ kind: false, labels: [true, false], drum: true });
    meter.swapFiles();
    expect(meter.filesPair()).toEqual({ kind: 'other', labels: ['Wires', 'Snare top'], drum: '' });
    expect(meter.filesGuessed().labels).toEqual([false, true]);
    // the next files have nothing of these
    named('take.wav');
    expect(meter.filesPair()).toEqual({ kind: 'other', labels: ['', ''], drum: '' });
    expect(meter.filesGuessed()).toEqual({ kind: false, labels: [false, false], drum: false });
    named('snare.wav');
    expect(meter.filesPair()).toEqual({ kind: 'other', labels: ['', ''], drum: 'snare' });
    expect(meter.filesGuessed().drum).toBe(true);
  });

  it('files are looked at when they come, and said to be a pair only when they are', async () => {
    const { meter } = bench();
    const wav = (channels: number, name: string): File => {
      const bytes = writeWav(
        Array.from({ length: channels }, () => new Float32Array(480)),
        48_000,
        's16',
      );
      return new File([bytes as Uint8Array<ArrayBuffer>], name);
    };
    meter.offerFiles([wav(2, 'pair.wav')]);
    expect(meter.filesFate()).toBe('reading');
    await vi.waitFor(() => expect([meter.filesFate(), meter.filesLabel()]).toEqual(['fine', 'pair.wav']));
    meter.offerFiles([wav(1, 'alone.wav')]);
    await vi.waitFor(() => expect(meter.filesFate()).toBe('unusable'));
    expect(meter.problem()?.text).toMatch(/^alone\.wav has one channel/);
    meter.offerFiles([wav(1, 'a.wav'), wav(1, 'b.wav')]);
    meter.swapFiles();
    await vi.waitFor(() => expect(meter.filesLabel()).toBe('A: b.wav · B: a.wav'));
    expect(meter.problem()).toBeNull();
  });

  it('a cancelled recording keeps what was read, and starting over reads it again', async () => {
    const { meter, openings, frame } = bench();
    void meter.open({ type: 'recording', files: [], mode: 'analyse' });
    await settle();
    await openings[0]?.letIn();
    openings[0]?.events.onReading(measured('same', 3));
    frame();
    await meter.cancel();
    expect([meter.run(), meter.answer()?.polarity]).toEqual(['ended', 'same']);
    meter.startOver();
    await settle();
    expect(openings.length).toBe(2);
  });
});

describe('readings', () => {
  it('are painted once a frame, the newest only, the history of all', async () => {
    const { meter, demo, frames, frame } = await playing();
    for (let i = 1; i <= 5; i++) demo.events.onReading(measured('same', i, { streamSeconds: i / 10 }));
    expect(frames.length).toBe(1);
    expect(meter.reading()).toBeNull();
    frame();
    expect(meter.reading()?.streamSeconds).toBe(0.5);
    expect(meter.history.times.length).toBe(5);
  });

  it('flash at most three times a second', async () => {
    const { meter, demo, frame, clock } = await playing();
    for (let hit = 1; hit <= 16; hit++) {
      clock.ms += 62.5;
      demo.events.onReading(measured('same', 3, { hits: hit }));
      frame();
    }
    expect(meter.flashes()).toBe(3);
  });

  it('after an invert speak at once, without what was still on its way', async () => {
    const { meter, demo, frame, clock } = await playing();
    clock.ms = 10_000;
    for (let hits = 4; hits < 9; hits++) {
      demo.events.onReading(measured('inverted', 3, { hits }));
      frame();
    }
    const before = meter.advice()?.text;
    meter.setInvertB(true);
    demo.events.onReading(measured('inverted', 3, { hits: 9 }));
    frame();
    demo.events.onReading(measured('same', 3, { hits: 9 }));
    clock.ms += 100;
    frame();
    expect(meter.advice()?.text).not.toBe(before);
    clock.ms += 1000;
    demo.events.onReading(measured('same', 3, { hits: 10 }));
    frame();
    expect(meter.previous()).toMatchObject({ polarity: 'inverted' });
    expect(meter.previous()?.pathCm).toBeCloseTo(3);
    expect(demo.log).toContain('invert true');
  });
});

describe('what is shown at one moment is of one reading', () => {
  // made-up readings have the sum of their arrival: as it is the inverted one is thin
  const THIN = { spreadSamples: 1 };
  const FULL = THIN;

  async function inverted() {
    const made = await playing();
    made.demo.events.onReading(measured('inverted', 3, THIN));
    made.frame();
    const see = () => [
      made.meter.invertB(),
      made.meter.context().invertB,
      made.meter.standsOn()?.polarity,
      made.meter.reading()?.sum.fuller,
      made.meter.advice()?.action,
    ];
    return { ...made, see };
  }

  it('an invert in the meter is shown with the first reading that is of it, and not before', async () => {
    const { meter, demo, frame, see } = await inverted();
    const before = see();
    expect(before).toEqual([false, false, 'inverted', 'inverted', 'invert-and-move']);
    meter.setInvertB(true);
    expect(demo.log).toContain('invert true');
    expect([see(), meter.fresh()]).toEqual([before, false]);
    // the same reading in another light is still the old one
    meter.setTemperatureC(21);
    frame();
    expect([see(), meter.fresh()]).toEqual([before, false]);
    demo.events.onReading(measured('same', 3, FULL));
    expect(see()).toEqual(before);
    frame();
    expect([see(), meter.fresh()]).toEqual([[true, true, 'same', 'as-is', 'invert-and-move'], true]);
  });

  it('pressed twice it is as it was, and the engine was told both times', async () => {
    const { meter, demo, frame } = await inverted();
    meter.setInvertB(true);
    meter.setInvertB(false);
    expect(demo.log.filter((line) => line.startsWith('invert'))).toEqual(['invert true', 'invert false']);
    demo.events.onReading(measured('inverted', 3, THIN));
    frame();
    expect([meter.invertB(), meter.standsOn()?.polarity, meter.fresh()]).toEqual([false, 'inverted', true]);
  });

  it('where nothing is read it is shown at once, and a new source begins without it', async () => {
    const { meter, demo, frame, openings } = await playing();
    meter.setInvertB(true);
    expect(meter.invertB()).toBe(true);
    demo.events.onReading(measured('same', 3));
    frame();
    meter.setInvertB(false);
    const opened = meter.open({ type: 'demo', scene: SCENE });
    await settle();
    await openings[1]?.letIn();
    await opened;
    expect([meter.invertB(), openings[1]?.settings.invertB]).toEqual([false, false]);
  });

  it('a reading whose source is gone can’t be turned over any more', async () => {
    const { meter, openings, frame } = bench();
    void meter.open({ type: 'recording', files: [], mode: 'analyse' });
    await settle();
    await openings[0]?.letIn();
    openings[0]?.events.onReading(measured('same', 3));
    frame();
    await meter.cancel();
    meter.setInvertB(true);
    expect([meter.invertB(), meter.standsOn()?.polarity]).toEqual([false, 'same']);
    meter.startOver();
    await settle();
    expect(openings[1]?.settings.invertB).toBe(false);
  });

  it('a swap and a start over show nothing of the hits that are forgotten', async () => {
    for (const press of ['swap', 'startOver'] as const) {
      const { meter, demo, frame } = await inverted();
      // on its way to the screen when the press comes
      demo.events.onReading(measured('inverted', 4, THIN));
      meter[press]();
      expect([meter.reading(), meter.advice(), meter.standsOn()]).toEqual([null, null, null]);
      frame();
      expect(meter.reading()).toBeNull();
      demo.events.onReading(reading({ hits: 1, hitsPooled: 1, reason: 'too-few-hits' }));
      frame();
      expect(meter.standsOn()?.state).toBe('listening');
    }
  });

  it('advice that waits for a second hit stands on the reading that it came from', async () => {
    const { meter, demo, frame } = await playing();
    demo.events.onReading(measured('inverted', 3, { hits: 8 }));
    frame();
    const text = meter.advice()?.text;
    demo.events.onReading(
      reading({ state: 'unclear', reason: 'hits-disagree', hits: 9, drum: 1, streamSeconds: 10.1 }),
    );
    frame();
    expect([meter.advice()?.text, meter.standsOn()?.state, meter.answer()?.state]).toEqual([
      text,
      'measured',
      'unclear',
    ]);
    demo.events.onReading(reading({ state: 'unclear', reason: 'hits-disagree', hits: 10, drum: 1, streamSeconds: 11 }));
    frame();
    expect([meter.advice()?.action, meter.standsOn()?.state]).toEqual(['cannot-tell', 'unclear']);
  });

  it('the sentence and how sure it is tell one accuracy, also within a hit', async () => {
    const { meter, demo, frame } = await playing();
    meter.setKind('same-side');
    const known = (cm: number) => measured('same', 3, { hits: 6, uncertaintySamples: cm / CM_PER_SAMPLE });
    for (const [cm, said] of [
      [15, '±15 cm'],
      [17, '±17 cm'],
    ] as const) {
      demo.events.onReading(known(cm));
      frame();
      const { text, sureness } = meter.advice() ?? { text: '', sureness: '' };
      expect(sureness).toContain(said);
      // the sentence stands while hits come in: it tells no accuracy of its own
      expect(text).toContain('but that’s not certain enough to move it');
      expect(text).not.toContain('±');
    }
  });

  it('a polarity that flipped between two hits is called that', async () => {
    const { meter, demo, frame } = await playing();
    const perHit = [
      ...[1, 2, 3, 4].map((serial) => hit(serial, 'old', { polarity: 'same' })),
      ...[5, 6].map((serial) => hit(serial, 'used', { polarity: 'inverted' })),
    ];
    const moved = { state: 'listening', reason: 'moved', hits: 6, hitsPooled: 2, drum: 1 } as const;
    demo.events.onReading(reading({ ...moved, perHit }));
    frame();
    const { text, sureness } = meter.advice() ?? { text: '', sureness: '' };
    expect([text, sureness].join(' ')).toMatch(/^Polarity changed, so the earlier hits no longer count/);
    expect([text, sureness].join(' ')).not.toMatch(/moved/i);
    // a move with the same polarity stays one
    const same = perHit.map((one) => ({ ...one, polarity: 'same' as const }));
    demo.events.onReading(reading({ ...moved, hits: 7, perHit: same }));
    frame();
    expect(meter.advice()?.text).toMatch(/^Something moved/);
  });
});

describe('controls', () => {
  it('a held reading takes invert and temperature in', async () => {
    const { meter, demo, frame, clock } = await playing();
    demo.events.onReading(measured('inverted', 3));
    frame();
    meter.hold(true);
    meter.setInvertB(true);
    demo.events.onReading(measured('same', 3));
    clock.ms += 1000;
    frame();
    meter.setTemperatureC(10);
    frame();
    expect([meter.held(), meter.invertB(), meter.answer()?.polarity, meter.notice()]).toEqual([true, true, 'same', '']);
    expect(demo.log.filter((line) => line.startsWith('hold'))).toEqual(['hold true']);
  });

  it('a swap lets a held reading go, and says so for a while', async () => {
    const { meter, demo, clock } = await playing();
    meter.hold(true);
    meter.swap();
    expect([meter.held(), meter.swapped(), meter.notice()]).toEqual([false, true, 'Hold is off: starting over.']);
    expect(demo.log.slice(-3)).toEqual(['hold true', 'hold false', 'restart swapped true invert false reach 11']);
    expect(meter.history.marks.map((m) => m.kind)).toEqual(['hold', 'hold', 'swap']);
    clock.ms += 9000;
    demo.events.onReading(measured('same', 3));
    expect(meter.notice()).toBe('');
    meter.swap();
    expect(meter.notice()).toBe('');
  });

  it('a pair kind with another reach starts over and says so, another one does not', async () => {
    const { meter, demo } = await playing();
    meter.hold(true);
    meter.setKind('same-side');
    expect([meter.held(), meter.notice()]).toEqual([true, '']);
    expect(demo.log.some((line) => line.startsWith('restart'))).toBe(false);
    meter.setKind('close-room');
    expect(demo.log.at(-1)).toBe('restart swapped false invert false reach 34');
    expect([meter.held(), meter.notice()]).toEqual([false, 'Hold is off, now searching longer delays: starting over.']);
    meter.setKind('same-side');
    expect(meter.notice()).toBe('Now searching shorter delays: starting over.');
  });

  it('the end of a recording is told to the advice', async () => {
    const { meter, openings } = bench();
    void meter.open({ type: 'recording', files: [], mode: 'analyse' });
    await settle();
    await openings[0]?.letIn();
    expect(meter.context()).not.toHaveProperty('ended');
    openings[0]?.events.onEnded();
    expect([meter.run(), meter.context()]).toEqual(['ended', expect.objectContaining({ ended: true })]);
    meter.startOver();
    expect(meter.context()).not.toHaveProperty('ended');
  });

  it('a fault is left behind by starting over', async () => {
    const { meter, demo } = await playing();
    demo.events.onProblem({ code: 'worklet-fault', text: 'The meter stopped.' });
    expect(meter.run()).toBe('stopped');
    meter.startOver();
    expect([meter.run(), meter.problem()]).toEqual(['running', null]);
    expect(demo.log.at(-1)).toContain('restart');
  });
});

describe('after a problem', () => {
  it('what was refused is tried again, a file that can’t be used is not', async () => {
    const { meter, openings } = bench();
    const tried = meter.open({ type: 'demo', scene: SCENE });
    await settle();
    await openings[0]?.refuse({ code: 'worklet-fault', text: 'The meter could not start.' });
    await tried;
    expect([meter.canRecover(), meter.page()]).toEqual([true, 'start']);
    const again = meter.recover();
    await settle();
    await openings[1]?.letIn();
    await again;
    expect([meter.page(), meter.run(), meter.problem()]).toEqual(['meter', 'running', null]);

    const file = meter.open({ type: 'recording', files: [], mode: 'analyse' });
    await settle();
    await openings[2]?.refuse({ code: 'not-audio', text: 'This is not audio.' });
    await file;
    expect(meter.canRecover()).toBe(false);
  });

  it('a lost input is opened again, with the same A and B', async () => {
    const { meter, openings } = bench();
    void meter.open({ type: 'interface', deviceId: 'x' });
    await settle();
    await openings[0]?.letIn();
    meter.finishIdentify(true);
    openings[0]?.events.onProblem(LOST);
    expect(meter.canRecover()).toBe(true);
    const again = meter.recover();
    await settle();
    expect(openings[1]?.settings.swapped).toBe(true);
    await openings[1]?.letIn();
    await again;
    expect([meter.page(), meter.run(), meter.swapped()]).toEqual(['meter', 'running', true]);
  });
});

describe('what the screen sees', () => {
  it('is what it may read and press, and nothing that only the meter’s own rooms may', () => {
    const { meter } = bench();
    const internal = ['take', 'note', 'turn', 'rethink', 'settle', 'clear', 'forLink', 'concerns', 'arrive', 'signals'];
    expect(Object.keys(meter).filter((name) => internal.includes(name) || name === 'setProblem')).toEqual([]);
    // every setter is one of a person's presses
    expect(
      Object.keys(meter)
        .filter((name) => name.startsWith('set'))
        .sort(),
    ).toEqual(['setInvertB', 'setKind', 'setKnownSwitch', 'setMonitorGain', 'setSwitchedB', 'setTemperatureC']);
  });
});
