/** Listening with a path that only notes what it is told. */
import { createRoot, createSignal } from 'solid-js';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { ListeningPath, PathEvents } from '../../../src/listen/path';
import type { Mix, PairSound, Put, Version } from '../../../src/listen/version';
import { createListening } from '../../../src/state/listen/listening';
import type { Listening } from '../../../src/state/listen/listeningTypes';
import type { LiveSound } from '../../../src/state/listen/soundSource';
import { NOW } from '../../../src/state/listen/versions';

const RATE = 48_000;

function drum(): PairSound {
  const a = Float32Array.from({ length: 3 * RATE }, (_, i) => {
    const t = (i / RATE) % 1;
    return 0.5 * Math.exp(-20 * t) * Math.sin(2 * Math.PI * 180 * t);
  });
  const b = a.map((x) => 0.25 * x);
  return { sampleRate: RATE, a, b, hitsSeconds: [0, 1, 2], ownSeconds: [], offsetSamples: 0, isNewest: false };
}

interface Told {
  mixes: Mix[];
  level: number;
  plays: boolean;
  loops: number;
  closed: boolean;
  events: PathEvents;
}

function stage({ matchTo }: { matchTo?: Put } = {}) {
  const paths: Told[] = [];
  const open = async (events: PathEvents): Promise<ListeningPath> => {
    const told: Told = { mixes: [], level: 0, plays: false, loops: 0, closed: false, events };
    paths.push(told);
    return {
      choose: (mix) => void told.mixes.push(mix),
      setLoop: () => void told.loops++,
      setLevel: (level) => {
        told.level = level;
      },
      play: (on) => {
        told.plays = on;
      },
      close: () => {
        told.closed = true;
      },
    };
  };
  const [key, setKey] = createSignal(0);
  const [sound, setSound] = createSignal<PairSound | null>(drum());
  const [turnedB, setTurnedB] = createSignal(false);
  const [elsewhere, setElsewhere] = createSignal(false);
  const [blind, setBlind] = createSignal(false);
  const liveSound: LiveSound = { offsetSamples: () => 1.5, open };
  const [live, setLive] = createSignal<LiveSound | null>(null);
  const tried: Version = { id: 'tried', name: 'Tried', invertB: true, delayBSamples: -4.75, trimBDb: -2 };
  const [versions, setVersions] = createSignal<readonly Version[]>([NOW, tried]);
  let hushed = 0;
  const source = {
    key,
    sound: async () => sound(),
    openLoops: (_rate: number, events: PathEvents) => open(events),
    turnedB,
    live,
    hush: () => void hushed++,
    soundsElsewhere: elsewhere,
  };
  let dispose = (): void => undefined;
  const listening: Listening = createRoot((end) => {
    dispose = end;
    return createListening({ source, versions, matchTo, blind });
  });
  const more = { setBlind, setKey, setSound, setTurnedB, setElsewhere, setLive, setVersions, liveSound, tried };
  return { listening, paths, dispose: () => dispose(), hushed: () => hushed, ...more };
}

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

test('it plays at level zero, and whatever else sounds falls silent', async () => {
  const { listening, paths, hushed, setElsewhere } = stage();
  expect(paths).toEqual([]);
  await listening.play();
  expect(listening.playing()).toBe(true);
  expect(hushed()).toBe(1);
  expect(paths[0]).toMatchObject({ level: 0, plays: true, loops: 1 });
  expect(listening.hits()).toBe(1);
  listening.setLevel(0.4);
  expect(paths[0]?.level).toBeCloseTo(0.16, 12);
  setElsewhere(true);
  expect(listening.playing()).toBe(false);
  expect(paths[0]?.closed).toBe(true);
});

test('another version is chosen at once, with the same loop, matched, and its gain is told', async () => {
  const { listening, paths, tried } = stage();
  await listening.play();
  listening.choose('tried');
  const mix = paths[0]?.mixes.at(-1) as Mix;
  // B earlier is A later
  expect(mix.delayASamples).toBe(4.75);
  expect(mix.delayBSamples).toBe(0);
  // B is a quarter of A, brought to A's level, and inverted and trimmed on top
  expect(mix.bLeft / mix.aLeft).toBeCloseTo(-4 * 10 ** (tried.trimBDb / 20), 3);
  expect(listening.matched()?.gainDb).toBeGreaterThan(6);
  expect(paths[0]?.loops).toBe(1);
  listening.setStart('recorded');
  const recorded = paths[0]?.mixes.at(-1) as Mix;
  expect(recorded.bLeft / recorded.aLeft).toBeCloseTo(-(10 ** (tried.trimBDb / 20)), 3);
  listening.setPut('a');
  expect(paths[0]?.mixes.at(-1)?.bLeft).toBeCloseTo(0, 9);
});

test('what is dragged is followed, and what is told again unchanged isn’t', async () => {
  const { listening, paths, tried, setVersions } = stage();
  await listening.play();
  listening.choose('tried');
  const before = paths[0]?.mixes.length as number;
  setVersions([{ ...NOW }, { ...tried }]);
  vi.advanceTimersByTime(100);
  expect(paths[0]?.mixes.length).toBe(before);
  for (const delay of [-1, -2, -3]) setVersions([NOW, { ...tried, delayBSamples: delay }]);
  vi.advanceTimersByTime(100);
  expect(paths[0]?.mixes.length).toBe(before + 1);
  expect(paths[0]?.mixes.at(-1)?.delayASamples).toBe(3);
});

test('the input offset that the reading takes out is taken out of what is heard', async () => {
  const { listening, paths, setSound } = stage();
  setSound({ ...drum(), offsetSamples: 2.5 });
  await listening.play();
  expect(paths[0]?.mixes.at(-1)?.delayASamples).toBe(2.5);
});

test('the example kit’s own switch turns over what is heard', async () => {
  const { listening, paths, setTurnedB } = stage();
  await listening.play();
  expect(paths[0]?.mixes.at(-1)?.bLeft).toBeGreaterThan(0);
  setTurnedB(true);
  expect(paths[0]?.mixes.at(-1)?.bLeft).toBeLessThan(0);
});

test('with another sound it stops, and the level is at zero again', async () => {
  const { listening, paths, setKey } = stage();
  await listening.play();
  listening.setLevel(0.5);
  setKey(1);
  expect(paths[0]?.closed).toBe(true);
  expect([listening.playing(), listening.level(), listening.matched()]).toEqual([false, 0, null]);
});

test('each time sound begins the level is at zero: played again, and with other hits', async () => {
  const { listening, paths } = stage();
  await listening.play();
  listening.setLevel(0.9);
  // the newest hits, while others go round
  const taken = listening.play();
  expect([listening.level(), paths[0]?.level]).toEqual([0, 0]);
  await taken;
  expect(paths[0]).toMatchObject({ level: 0, loops: 2, plays: true });
  listening.setLevel(0.9);
  listening.stop();
  expect([listening.level(), paths[0]?.level]).toEqual([0, 0]);
  listening.setLevel(0.9);
  await listening.play();
  expect([listening.level(), paths[0]?.level]).toEqual([0, 0]);
});

test('a blind pair begins at equal levels, whatever was chosen when its control was there', () => {
  const { listening, setBlind } = stage();
  listening.setStart('recorded');
  setBlind(true);
  expect(listening.start()).toBe('equal');
});

test('matched with A alone, A alone stays as it is whatever becomes of the first version', async () => {
  const { listening, paths, setVersions } = stage({ matchTo: 'a' });
  await listening.play();
  listening.setPut('a');
  const gain = (): number => paths[0]?.mixes.at(-1)?.aLeft as number;
  expect(gain()).toBeCloseTo(1, 9);
  setVersions([{ ...NOW, invertB: true, trimBDb: -0.3 }]);
  vi.advanceTimersByTime(100);
  expect(gain()).toBeCloseTo(1, 9);
  listening.setPut('both');
  expect(20 * Math.log10(gain())).toBeCloseTo(24, 6);
});

test('no press turns open mics up: not a version, not what B starts at', async () => {
  const { listening, paths, setLive, liveSound } = stage();
  setLive(liveSound);
  listening.askLive();
  await listening.confirmLive();
  listening.setLevel(0.5);
  const now = paths[0]?.mixes.at(-1) as Mix;
  listening.choose('tried');
  const tried = paths[0]?.mixes.at(-1) as Mix;
  expect(tried.aLeft).toBeCloseTo(now.aLeft, 12);
  expect(Math.abs(tried.bLeft)).toBeLessThanOrEqual(now.bLeft);
  expect(listening.matched()?.gainDb).toBeLessThanOrEqual(0);
  expect(listening.matched()?.shortDb).toBeGreaterThan(6);
  expect(listening.level()).toBe(0.5);
  listening.setStart('recorded');
  expect([listening.level(), paths[0]?.level]).toEqual([0, 0]);
});

test('without a sound or a hit it says so, and a path that comes too late is let go', async () => {
  const { listening, paths, setSound } = stage();
  setSound(null);
  await listening.play();
  expect(listening.silent()).toEqual({ code: 'no-sound' });
  setSound({ ...drum(), hitsSeconds: [] });
  await listening.play();
  expect(listening.silent()).toEqual({ code: 'no-hit' });
  setSound(drum());
  const late = listening.play();
  listening.stop();
  await late;
  expect(listening.playing()).toBe(false);
  expect(paths.every(({ plays }) => !plays)).toBe(true);
});

test('with open mics and no whole hit yet, Play waits and begins by itself at level zero; a second press ends the waiting', async () => {
  const { listening, paths, setLive, setSound, liveSound } = stage();
  setLive(liveSound);
  setSound(null);
  const ended = listening.play();
  await vi.advanceTimersByTimeAsync(1000);
  expect([listening.waiting(), listening.starting(), listening.silent()]).toEqual([true, true, null]);
  listening.stop();
  await vi.advanceTimersByTimeAsync(1000);
  await ended;
  expect([listening.waiting(), listening.starting(), listening.playing()]).toEqual([false, false, false]);

  const begun = listening.play();
  // the hit still rings
  setSound({ ...drum(), hitsSeconds: [2.5], isNewest: true });
  await vi.advanceTimersByTimeAsync(1000);
  expect(listening.waiting()).toBe(true);
  // nothing is turned up by what isn't heard
  listening.setLevel(0.8);
  setSound({ ...drum(), hitsSeconds: [1], isNewest: true });
  await vi.advanceTimersByTimeAsync(500);
  await begun;
  expect([listening.waiting(), listening.starting(), listening.playing()]).toEqual([false, false, true]);
  expect(paths.at(-1)).toMatchObject({ plays: true, level: 0, loops: 1 });
});

test('a hit that is waited for on an input that is gone: it says so', async () => {
  const { listening, setLive, setSound, liveSound } = stage();
  setLive(liveSound);
  setSound({ ...drum(), hitsSeconds: [], isNewest: true });
  const ended = listening.play();
  await vi.advanceTimersByTimeAsync(500);
  setLive(null);
  await vi.advanceTimersByTimeAsync(500);
  await ended;
  expect([listening.waiting(), listening.starting(), listening.silent()]).toEqual([false, false, { code: 'no-hit' }]);
});

/** The same in A and B but for a click: inverted, that is what is left. */
function clicky(): PairSound {
  const plain = drum();
  const b = plain.a.slice();
  for (const hit of [0, 1, 2]) b[hit * RATE + 2000] = (b[hit * RATE + 2000] as number) - 0.3;
  return { ...plain, b };
}
const inverted: Version = { id: 'tried', name: 'Tried', invertB: true, delayBSamples: 0, trimBDb: 0 };

test('turned down for one that nearly cancels, all come back up once it doesn’t, by 3 dB a second', async () => {
  const { listening, paths, setSound, setVersions } = stage();
  setSound(clicky());
  setVersions([NOW]);
  await vi.advanceTimersByTimeAsync(100);
  await listening.play();
  const gainDb = (): number => 20 * Math.log10(paths[0]?.mixes.at(-1)?.aLeft as number);
  const before = gainDb();
  setVersions([NOW, inverted]);
  await vi.advanceTimersByTimeAsync(100);
  const low = gainDb();
  expect(low).toBeLessThan(before - 6);
  expect(listening.rising()).toBe(false);
  setVersions([NOW, { ...inverted, invertB: false }]);
  await vi.advanceTimersByTimeAsync(60);
  expect(listening.rising()).toBe(true);
  const gains: number[] = [gainDb()];
  for (let i = 0; i < 100; i++) {
    await vi.advanceTimersByTimeAsync(50);
    gains.push(gainDb());
  }
  for (let i = 1; i < gains.length; i++)
    expect((gains[i] as number) - (gains[i - 1] as number)).toBeLessThanOrEqual(0.1501);
  expect(gains.at(-1)).toBeCloseTo(before, 6);
  expect(listening.rising()).toBe(false);
});

test('the level can’t be turned up by what is silent, so that nothing comes in louder than it was set', async () => {
  const { listening, setSound, setVersions } = stage({ matchTo: 'a' });
  setSound({ ...drum(), b: drum().a.slice() });
  await listening.play();
  listening.setLevel(0.3);
  setVersions([inverted]);
  await vi.advanceTimersByTimeAsync(100);
  expect([listening.matched()?.gainDb, listening.tooSoft()]).toEqual([null, true]);
  listening.setLevel(1);
  expect(listening.level()).toBe(0.3);
  listening.setPut('a');
  expect(listening.tooSoft()).toBe(false);
  listening.setLevel(0.5);
  listening.setPut('both');
  listening.setLevel(0.2);
  expect(listening.level()).toBe(0.2);
  setVersions([NOW]);
  await vi.advanceTimersByTimeAsync(100);
  expect([listening.tooSoft(), listening.level()]).toEqual([false, 0.2]);
});

test('open mics are silent until the warning is confirmed, each time, and begin at level zero', async () => {
  const { listening, paths, setLive, setSound, liveSound } = stage();
  await listening.confirmLive();
  listening.askLive();
  expect(listening.live()).toBe('off');
  setSound(null);
  setLive(liveSound);
  await listening.confirmLive();
  expect(paths).toEqual([]);
  listening.setLevel(0.8);
  listening.askLive();
  expect(listening.live()).toBe('asked');
  expect(paths).toEqual([]);
  await listening.confirmLive();
  expect(paths[0]).toMatchObject({ plays: true, level: 0 });
  expect(listening.live()).toBe('on');
  // nothing was struck yet, and the input offset is taken out all the same
  expect(paths[0]?.mixes.at(-1)?.delayASamples).toBe(1.5);

  listening.setLevel(0.5);
  paths[0]?.events.onRunaway();
  expect(paths[0]?.closed).toBe(true);
  expect(listening.silent()).toEqual({ code: 'runaway' });
  expect(listening.live()).toBe('off');
  // asked for again, with the warning again
  expect(listening.level()).toBe(0);
  listening.askLive();
  await listening.confirmLive();
  expect(paths[1]).toMatchObject({ plays: true, level: 0 });
  setLive(null);
  expect(paths[1]?.closed).toBe(true);
});

test('whoever leaves takes the sound along', async () => {
  const { listening, paths, dispose } = stage();
  await listening.play();
  dispose();
  expect(paths[0]?.closed).toBe(true);
});
