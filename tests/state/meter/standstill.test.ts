/** Nothing arrives, or the source stopped: what is shown is old, no press does anything to it, and there is a way on. */
import { describe, expect, it, vi } from 'vitest';
import type { InputDevice, Problem } from '../../../src/audio/link';
import { ProblemError } from '../../../src/audio/link';
import { createMeter } from '../../../src/state/meter/meter';
import { memoryKeeper } from '../../../src/state/settings/keeper';
import { createSettings } from '../../../src/state/settings/settings';
import { hit } from '../../advice/hits';
import { measured, reading } from '../../advice/readings';
import { fakeDoor, type Opening, SCENE, settle } from '../fakeDoor';

const LOST: Problem = { code: 'input-lost', text: 'The input is gone; plug it in again.' };
const MUTED: Problem = { code: 'input-muted', text: 'The input is muted; unmute it.' };
const DROPPED: Problem = { code: 'dropped-audio', text: 'The computer drops audio; close other programs.' };
const NONE: Problem = { code: 'no-data', text: 'Nothing arrives; check the input.' };
const FAULT: Problem = { code: 'worklet-fault', text: 'The meter stopped; press “Start over”.' };
const MONO: Problem = { code: 'one-channel', text: 'Both channels carry the same signal; choose another input.' };

function bench() {
  const { door, openings } = fakeDoor();
  const clock = { ms: Date.UTC(2026, 0, 2, 14, 10, 32) };
  const frames: (() => void)[] = [];
  const inputs: InputDevice[] = [];
  const meter = createMeter({
    door: { ...door, listInputs: async () => [...inputs] },
    settings: createSettings(memoryKeeper()),
    schedule: (paint) => void frames.push(paint),
    nowMs: () => clock.ms,
    clock: () => new Date(clock.ms),
  });
  const at = (index: number): Opening => openings.at(index) as Opening;
  let seconds = 0;
  return {
    meter,
    openings,
    inputs,
    clock,
    newest: () => at(-1),
    log: () => at(-1).log,
    say(next = measured('same', 3)) {
      seconds += 1;
      at(-1).events.onReading({ ...next, streamSeconds: seconds });
      for (const paint of frames.splice(0)) paint();
    },
  };
}
type Bench = ReturnType<typeof bench>;

async function playing(): Promise<Bench> {
  const made = bench();
  void made.meter.open({ type: 'demo', scene: SCENE });
  await settle();
  await made.newest().letIn();
  return made;
}

async function live(deviceId: string | null = 'x'): Promise<Bench> {
  const made = bench();
  void made.meter.open({ type: 'interface', deviceId });
  await settle();
  await made.newest().letIn();
  made.meter.finishIdentify(false);
  return made;
}

describe('while nothing arrives', () => {
  it('the reading stays, with the time of its newest data, and what comes that is no data is none', async () => {
    const { meter, newest, say, clock } = await live();
    say(measured('same', 3));
    clock.ms += 1250;
    newest().events.onProblem(NONE);
    say(measured('inverted', 9));
    expect([meter.run(), meter.problem()?.code, meter.answer()?.polarity]).toEqual(['waiting', 'no-data', 'same']);
    expect(meter.oldAt()?.toISOString()).toBe('2026-01-02T14:10:32.000Z');
    newest().events.onProblemOver?.('no-data');
    expect([meter.run(), meter.problem(), meter.oldAt()]).toEqual(['running', null, null]);
    say(measured('inverted', 9));
    expect(meter.answer()?.polarity).toBe('inverted');
  });

  it('the same while the computer drops audio, whatever else is wrong meanwhile, and it goes on by itself', async () => {
    const { meter, newest, say } = await live();
    say(measured('same', 3));
    const { events } = newest();
    events.onProblem(DROPPED);
    say(measured('inverted', 0));
    expect([meter.run(), meter.problem()?.code, meter.answer()?.polarity]).toEqual([
      'waiting',
      'dropped-audio',
      'same',
    ]);
    events.onProblem(NONE);
    expect(meter.problem()?.code).toBe('no-data');
    events.onProblemOver?.('no-data');
    expect([meter.run(), meter.problem()?.code]).toEqual(['waiting', 'dropped-audio']);
    events.onProblemOver?.('dropped-audio');
    expect([meter.run(), meter.problem(), meter.oldAt()]).toEqual(['running', null, null]);
    say(measured('inverted', 9));
    expect(meter.answer()?.polarity).toBe('inverted');
  });

  it('silence from the inputs is no newer data', async () => {
    const { meter, newest, say, clock } = await live();
    say(measured('same', 3));
    clock.ms += 400;
    const none = { peakDbfs: null, rmsDbfs: null, clips: 0, dc: 0, silent: false };
    say(reading({ a: none, b: none }));
    clock.ms += 600;
    newest().events.onProblem(NONE);
    expect(meter.oldAt()?.toISOString()).toBe('2026-01-02T14:10:32.000Z');
  });

  it('no press does anything but say again what is wrong', async () => {
    for (const problem of [NONE, DROPPED, MUTED, LOST, FAULT]) {
      const { meter, newest, say, log } = await live();
      say();
      meter.hold(true);
      newest().events.onProblem(problem);
      const before = [...log()];
      const presses = {
        hold: () => meter.hold(false),
        swap: () => meter.swap(),
        invert: () => meter.setInvertB(true),
        drum: () => meter.chooseDrum(2),
        kind: () => meter.setKind('close-room'),
        begin: () => meter.beginOffset(),
        keep: () => meter.keepOffset(),
        remove: () => meter.removeOffset(),
      };
      for (const [name, press] of Object.entries(presses)) {
        meter.dismissProblem();
        press();
        if (name !== 'kind') expect([name, meter.problem()?.code]).toEqual([name, problem.code]);
      }
      expect(log()).toEqual(before);
      expect([meter.held(), meter.swapped(), meter.invertB(), meter.notice(), meter.page()]).toEqual([
        true,
        false,
        false,
        '',
        'meter',
      ]);
      expect(meter.reading()).not.toBeNull();
    }
  });

  it('another reach is taken up when it goes on', async () => {
    const { meter, newest, log } = await live();
    newest().events.onProblem(NONE);
    meter.setKind('close-room');
    expect(log().at(-1)).toContain('reach 11');
    newest().events.onProblemOver?.('no-data');
    expect(log().at(-1)).toContain('reach 34');
    const told = log().length;
    newest().events.onProblem(NONE);
    newest().events.onProblemOver?.('no-data');
    expect(log().length).toBe(told);
  });

  it('an offset that is being measured is not taken, and its page can be left', async () => {
    const { meter, newest, log } = await live();
    meter.beginOffset();
    newest().events.onProblem(NONE);
    meter.keepOffset();
    expect(meter.page()).toBe('offset');
    meter.endOffset();
    expect([meter.page(), meter.notice()]).toEqual(['meter', '']);
    const told = log().length;
    newest().events.onProblemOver?.('no-data');
    expect(log().slice(told)).toEqual(['restart swapped false invert false reach 11']);
  });
});

describe('what is wrong stays told until it is over', () => {
  it('the end of one thing is not the end of another', async () => {
    const { meter, newest } = await live();
    newest().events.onProblem(NONE);
    newest().events.onProblem(LOST);
    newest().events.onProblem(MONO);
    expect([meter.run(), meter.problem()?.code]).toEqual(['stopped', 'input-lost']);
    newest().events.onProblemOver?.('no-data');
    newest().events.onProblemOver?.('one-channel');
    expect([meter.run(), meter.problem()?.code]).toEqual(['stopped', 'input-lost']);
    newest().events.onProblemOver?.('input-lost');
    expect([meter.run(), meter.problem()]).toEqual(['running', null]);
  });

  it('of another input nothing that was read stays, and whose mic is whose is asked again', async () => {
    const { meter, newest, say, openings } = await live();
    say(measured('same', 3));
    newest().events.onProblem({ code: 'input-changed', text: 'Another input; identify A and B again.' });
    expect([meter.run(), meter.answer(), meter.oldAt()]).toEqual(['stopped', null, null]);
    say(measured('inverted', 9));
    expect(meter.answer()).toBe(null);
    void meter.recover();
    await settle();
    await openings[1]?.letIn();
    expect([meter.page(), meter.run(), meter.problem()]).toEqual(['identify', 'running', null]);
  });

  it('so it is when A and B were a mix', async () => {
    const { meter, newest, openings } = await live();
    newest().events.onProblem({ code: 'mixed-channels', text: 'A mix; set two channels, then try again.' });
    expect([meter.run(), meter.canRecover()]).toEqual(['stopped', true]);
    void meter.recover();
    await settle();
    await openings[1]?.letIn();
    expect(meter.page()).toBe('identify');
  });

  it('on every page, and under what a press came to', async () => {
    const { meter, newest, openings } = await live();
    newest().events.onProblem(LOST);
    meter.go('kit');
    expect(meter.problem()?.code).toBe('input-lost');
    meter.go('meter');
    void meter.open({ type: 'recording', files: [], mode: 'play' });
    await settle();
    await openings[1]?.refuse({ code: 'not-audio', text: 'This is not audio.' });
    expect([meter.problem()?.code, meter.run()]).toEqual(['not-audio', 'stopped']);
    meter.dismissProblem();
    expect([meter.problem()?.code, meter.canRecover()]).toEqual(['input-lost', true]);
  });

  it('a note that is closed leaves what is wrong and the way on, and another thing puts it up again', async () => {
    for (const problem of [NONE, DROPPED, MUTED, LOST, FAULT, MONO]) {
      const { meter, newest } = await live();
      newest().events.onProblem(problem);
      meter.dismissProblem();
      // begun anew, it would drop audio as before, and the hits so far were gone
      const again = problem !== DROPPED;
      expect([meter.problem(), meter.aside()?.code, meter.canRecover()]).toEqual([null, problem.code, again]);
      newest().events.onProblem({ code: 'processing-on', text: 'Echo cancellation is on; switch it off.' });
      expect([meter.problem()?.code === undefined, meter.aside()]).toEqual([false, null]);
      newest().events.onProblemOver?.('processing-on');
      newest().events.onProblemOver?.(problem.code);
      expect([meter.problem(), meter.aside(), meter.run()]).toEqual([null, null, 'running']);
    }
  });

  it('what is wrong with a source before it is let in is told when it is', async () => {
    const { meter, openings } = bench();
    void meter.open({ type: 'interface', deviceId: 'x' });
    await settle();
    openings[0]?.events.onProblem(NONE);
    openings[0]?.events.onProblem(MUTED);
    openings[0]?.events.onProblemOver?.('no-data');
    expect(meter.problem()).toBeNull();
    await openings[0]?.letIn();
    expect([meter.problem()?.code, meter.run(), meter.page()]).toEqual(['input-muted', 'waiting', 'identify']);
    openings[0]?.events.onProblemOver?.('input-muted');
    expect([meter.problem(), meter.run()]).toEqual([null, 'running']);
  });
});

describe('trying again', () => {
  it('helps with all that stops a source, or keeps it waiting', async () => {
    for (const problem of [NONE, MUTED, LOST, MONO]) {
      for (const press of ['recover', 'startOver'] as const) {
        if (problem === MONO && press === 'startOver') continue;
        const { meter, newest, say, openings } = await live();
        say();
        newest().events.onProblem(problem);
        meter.dismissProblem();
        void meter[press]();
        await settle();
        // it is told until the source is there again
        expect([openings.length, meter.aside()?.code, meter.run()]).toEqual([2, problem.code, 'stopped']);
        expect(meter.reading()).not.toBeNull();
        await newest().letIn();
        expect([meter.run(), meter.problem(), meter.aside(), meter.page()]).toEqual(['running', null, null, 'meter']);
      }
    }
  });

  it('that is refused leaves the old reading, the new reason and another try', async () => {
    const { meter, newest, say, openings } = await live();
    say();
    newest().events.onProblem(LOST);
    meter.dismissProblem();
    void meter.recover();
    await settle();
    await newest().refuse({ code: 'device-busy', text: 'Another program holds the input; close it.' });
    expect([meter.run(), meter.problem()?.code, meter.canRecover()]).toEqual(['stopped', 'device-busy', true]);
    expect(meter.reading()).not.toBeNull();
    meter.dismissProblem();
    expect([meter.aside()?.code, meter.canRecover(), meter.run()]).toEqual(['device-busy', true, 'stopped']);
    void meter.recover();
    await settle();
    await openings[2]?.letIn();
    expect([meter.run(), meter.problem(), meter.aside()]).toEqual(['running', null, null]);
  });

  it('reads the device list first: a device that is gone is asked for, never replaced', async () => {
    const { meter, newest, openings, inputs } = await live('x');
    newest().events.onProblem(LOST);
    inputs.push({ deviceId: 'webcam', label: 'Webcam' });
    await meter.recover();
    expect([meter.page(), meter.problem()?.code, openings.length]).toEqual(['connect', 'no-device', 1]);
    expect([meter.inputs().length, meter.canRecover()]).toEqual([1, true]);
    inputs.push({ deviceId: 'x', label: 'a interface' });
    void meter.recover();
    await settle();
    await newest().letIn();
    expect([openings.length, meter.run(), meter.problem(), meter.page()]).toEqual([2, 'running', null, 'meter']);
  });

  it('a device that turns out to be gone when it is opened is asked for too', async () => {
    const { meter, newest } = await live('x');
    newest().events.onProblem(LOST);
    void meter.recover();
    await settle();
    await newest().refuse({ code: 'no-device', text: 'The input you chose is gone; choose another.' });
    expect([meter.page(), meter.problem()?.code, meter.canRecover()]).toEqual(['connect', 'no-device', true]);
  });

  it('the system’s own choice that is another device by now is identified anew', async () => {
    const { door, openings } = fakeDoor();
    let label = 'Interface';
    const meter = createMeter({
      door: {
        ...door,
        openInterface: async (...given) => {
          const link = await door.openInterface(...given);
          return { ...link, label };
        },
      },
      settings: createSettings(memoryKeeper()),
      schedule: (paint) => paint(),
      nowMs: () => 0,
    });
    void meter.open({ type: 'interface', deviceId: null });
    await settle();
    await openings[0]?.letIn();
    meter.finishIdentify(false);
    openings[0]?.events.onProblem(LOST);
    label = 'Webcam';
    void meter.recover();
    await settle();
    await openings[1]?.letIn();
    expect([meter.page(), meter.run()]).toEqual(['identify', 'running']);
  });

  it('starting over gives a failed worklet a new node, and a new source where that can’t be had', async () => {
    const { meter, newest, say, log, openings } = await playing();
    say();
    meter.hold(true);
    newest().events.onProblem(FAULT);
    meter.startOver();
    expect([meter.run(), meter.problem(), meter.held(), meter.notice()]).toEqual(['running', null, false, '']);
    expect([log().at(-1)?.split(' ')[0], openings.length]).toEqual(['restart', 1]);

    newest().events.onProblem(FAULT);
    newest().refuseRestarts(new ProblemError(FAULT));
    meter.startOver();
    await settle();
    expect([openings.length, meter.run(), meter.problem()?.code]).toEqual([2, 'stopped', 'worklet-fault']);
    await newest().letIn();
    expect([meter.run(), meter.problem()]).toEqual(['running', null]);
  });

  it('starting over works where the program of the meter couldn’t be loaded, once it can', async () => {
    const { meter, newest, openings } = await live();
    newest().events.onProblem(NONE);
    void meter.recover();
    await settle();
    await newest().refuse(FAULT);
    meter.dismissProblem();
    meter.startOver();
    await settle();
    await openings[2]?.letIn();
    expect([meter.run(), meter.problem(), meter.aside()]).toEqual(['running', null, null]);
  });

  it('doesn’t wait for an audio thread that hangs to let go', async () => {
    const { door, openings } = fakeDoor();
    const meter = createMeter({
      door: {
        ...door,
        openScene: async (...given) => ({
          ...(await door.openScene(...given)),
          close: () => new Promise(() => undefined),
        }),
      },
      settings: createSettings(memoryKeeper()),
      schedule: (paint) => paint(),
      nowMs: () => 0,
    });
    void meter.open({ type: 'demo', scene: SCENE });
    await settle();
    await openings[0]?.letIn();
    openings[0]?.events.onProblem(NONE);
    void meter.recover();
    await vi.waitFor(() => expect(openings.length).toBe(2), 2000);
    await openings[1]?.letIn();
    expect([meter.run(), meter.problem()]).toEqual(['running', null]);
  });

  it('opening again that is given up is no meter that looks alive', async () => {
    const { meter, newest, say, openings } = await live();
    say();
    newest().events.onProblem(LOST);
    void meter.recover();
    await settle();
    await meter.cancel();
    expect([meter.run(), meter.problem()?.code, meter.canRecover()]).toEqual(['stopped', 'input-lost', true]);
    void meter.recover();
    await settle();
    await newest().letIn();
    expect([openings.length, meter.run()]).toEqual([3, 'running']);
  });

  it('a swap of what was cancelled reads it again, and says nothing over nothing', async () => {
    const { meter, newest, say, openings } = bench();
    void meter.open({ type: 'recording', files: [], mode: 'analyse' });
    await settle();
    await newest().letIn();
    say();
    await meter.cancel();
    meter.swap();
    await settle();
    expect([openings.length, openings[1]?.settings.swapped]).toEqual([2, true]);
  });
});

describe('a reading without new hits', () => {
  it('stays, and after a while has the time of its newest hit', async () => {
    const { meter, newest, clock } = await live();
    const perHit = [hit(1, 'used'), hit(2, 'used')].map((one, i) => ({ ...one, drum: 1, timeSeconds: 9 + i }));
    const later = (streamSeconds: number): void => {
      clock.ms += 1000;
      newest().events.onReading(measured('same', 3, { perHit, drum: 1, streamSeconds }));
      clock.ms += 200;
      newest().events.onReading(measured('same', 3, { perHit, drum: 1, streamSeconds: streamSeconds + 0.2 }));
    };
    later(12);
    expect(meter.lastHitAt()).toBeNull();
    later(40);
    const at = meter.lastHitAt();
    expect(at?.getTime()).toBe(clock.ms - 30_200);
    later(70);
    expect(meter.lastHitAt()).toEqual(at);
    expect([meter.run(), meter.fresh(), meter.answer()?.state]).toEqual(['running', true, 'measured']);
  });
});
