import { afterEach, describe, expect, it, vi } from 'vitest';
import { type Problem, ProblemError, problemOf } from '../../../src/audio/link';
import { inputProblem, knownProblem } from '../../../src/audio/live/inputProblems';
import { inputChange, watchInput } from '../../../src/audio/live/inputWatch';
import { OneSignalCheck } from '../../../src/audio/live/oneSignalCheck';
import { contextProblem, faultProblem } from '../../../src/audio/problems';
import type { ChannelLevel, Reading } from '../../../src/reading/reading';
import { reading } from '../../advice/readings';
import type { Flat } from '../../support/readings/flat';

const sentence = /^[A-Z].*[^.;]\.$/;
const named = (name: string, message = ''): Error => Object.assign(new Error(message), { name });

describe('what a browser throws, in one sentence', () => {
  const cases: [string, Problem['code'], RegExp][] = [
    ['NotAllowedError', 'permission-refused', /allow/],
    ['SecurityError', 'permission-refused', /allow/],
    ['NotFoundError', 'no-device', /plug/],
    ['NotReadableError', 'device-busy', /your DAW may have it/],
    ['AbortError', 'device-busy', /your DAW may have it/],
    ['OverconstrainedError', 'no-device', /choose another/],
    ['WhateverError', 'unknown', /couldn’t be opened/],
  ];
  for (const [name, code, says] of cases) {
    it(name, () => {
      const { problem } = inputProblem(named(name));
      expect(problem.code).toBe(code);
      expect(problem.text).toMatch(says);
      expect(problem.text).toMatch(sentence);
    });
  }

  it('pages, worklets, contexts and faults too', () => {
    for (const code of ['insecure-page', 'no-worklet', 'permission-refused', 'no-device', 'device-busy'] as const) {
      expect(knownProblem(code).problem).toMatchObject({ code, text: expect.stringMatching(sentence) });
    }
    expect(faultProblem('odd length.').problem).toMatchObject({
      code: 'worklet-fault',
      text: expect.stringMatching(sentence),
    });
    expect(contextProblem(named('NotSupportedError'), 4000).problem.text).toMatch(/4000 Hz/);
    expect(contextProblem(named('InvalidStateError', 'closed')).problem.code).toBe('unknown');
    const own = knownProblem('no-device');
    expect(contextProblem(own)).toBe(own);
    for (const thrown of [own, new Error('x'), 'text', null, undefined]) {
      expect(problemOf(thrown).text).toMatch(sentence);
    }
    expect(problemOf(new ProblemError({ code: 'input-lost', text: 'Gone.' }))).toEqual({
      code: 'input-lost',
      text: 'Gone.',
    });
  });
});

describe('one signal on both channels', () => {
  const at = (streamSeconds: number, more: Partial<Flat> = {}): Reading =>
    reading({ streamSeconds, bitIdentical: true, ...more });
  const facts = { channelCount: 2, echoCancellation: false, noiseSuppression: false, autoGainControl: false };

  it('is said once, and taken back once the channels differ', () => {
    const check = new OneSignalCheck();
    expect(check.push(at(1), facts)).toBe(null);
    expect(check.push(at(1.2), facts)).toBe(null);
    expect(check.push(at(1.4), facts)).toMatchObject({
      problem: { code: 'one-channel', text: expect.stringMatching(sentence) },
    });
    expect(check.push(at(1.6), facts)).toBe(null);
    expect(check.push(at(1.8, { bitIdentical: false }), facts)).toEqual({ over: 'one-channel' });
    expect(check.push(at(2, { bitIdentical: false }), facts)).toBe(null);
  });

  it('names the processing that the settings admit', () => {
    const check = new OneSignalCheck();
    check.push(at(1), facts);
    const finding = check.push(at(2), { ...facts, echoCancellation: true, autoGainControl: true });
    expect(finding).toMatchObject({ problem: { code: 'processing-on' } });
    expect((finding as { problem: Problem }).problem.text).toMatch(
      /echo cancellation and automatic gain control are on/,
    );
  });

  it('is not said of silence, of gaps, nor of two inputs', () => {
    const check = new OneSignalCheck();
    for (let i = 0; i < 100; i++) {
      const silent = { silent: true } as ChannelLevel;
      expect(check.push(at(i, { a: silent, b: silent }), facts)).toBe(null);
      expect(check.push(at(i + 0.1, { gap: true }), facts)).toBe(null);
      expect(check.push(at(i + 0.2, { bitIdentical: false }), facts)).toBe(null);
    }
  });

  it('counts from the start again after a restart', () => {
    const check = new OneSignalCheck();
    check.push(at(60), facts);
    expect(check.push(at(1), facts)).toBe(null);
    expect(check.push(at(1.2), facts)).toBe(null);
    expect(check.push(at(1.5), facts)).not.toBe(null);
  });
});

const opened = { deviceId: 'x', groupId: 'g', label: 'Two inputs', trackLabel: 'Two inputs' };

describe('what became of the input', () => {
  const listed = [
    { deviceId: 'y', groupId: 'h', label: 'Webcam' },
    { deviceId: 'x', groupId: 'g', label: 'Two inputs' },
  ];
  it('nothing', () => expect(inputChange(opened, 'Two inputs', 'x', listed)).toBe(null));
  it('gone from the list', () =>
    expect(inputChange(opened, 'Two inputs', 'x', listed.slice(0, 1))?.code).toBe('input-lost'));
  it('the track speaks of another device', () => {
    const change = inputChange(opened, 'Webcam', 'x', listed);
    expect(change?.code).toBe('input-changed');
    expect(change?.text).toMatch(/from “Two inputs” to “Webcam”/);
    expect(inputChange(opened, 'Two inputs', 'y', listed)?.code).toBe('input-changed');
  });
  it('“default” now means another device', () => {
    const byDefault = {
      deviceId: 'default',
      groupId: 'g',
      label: 'Default - Two inputs',
      trackLabel: 'Default - Two inputs',
    };
    const now = [{ deviceId: 'default', groupId: 'h', label: 'Default - Webcam' }];
    expect(inputChange(byDefault, 'Default - Two inputs', 'default', now)?.text).toMatch(/to “Default - Webcam”/);
  });
});

describe('the watch', () => {
  class Track extends EventTarget {
    readyState = 'live';
    muted = false;
    label = 'Two inputs';
    getSettings = (): MediaTrackSettings => ({ deviceId: 'x' });
  }
  class Devices extends EventTarget {
    list = [{ kind: 'audioinput', deviceId: 'x', groupId: 'g', label: 'Two inputs' }];
    fails = false;
    enumerateDevices = async (): Promise<unknown[]> => {
      if (this.fails) throw new Error('not now');
      return this.list;
    };
  }
  function watch(devices = new Devices(), deviceId = 'x') {
    vi.useFakeTimers();
    const track = new Track();
    track.getSettings = () => ({ deviceId });
    const told: string[] = [];
    const end = watchInput(
      track as unknown as MediaStreamTrack,
      devices as unknown as MediaDevices,
      (problem) => told.push(problem.code),
      (code) => told.push(`over ${code}`),
      () => told.push('doubt'),
    );
    return { track, devices, told, end };
  }
  afterEach(() => void vi.useRealTimers());

  it('tells of an end once, also when the poll sees it again', async () => {
    const { track, told } = watch();
    track.readyState = 'ended';
    track.dispatchEvent(new Event('ended'));
    await vi.advanceTimersByTimeAsync(5000);
    expect(told).toEqual(['input-lost']);
  });

  it('tells of a mute and of its end', async () => {
    const { track, told } = watch();
    await vi.advanceTimersByTimeAsync(1500);
    track.muted = true;
    track.dispatchEvent(new Event('mute'));
    await vi.advanceTimersByTimeAsync(3000);
    track.muted = false;
    track.dispatchEvent(new Event('unmute'));
    await vi.advanceTimersByTimeAsync(3000);
    expect(told).toEqual(['input-muted', 'over input-muted']);
  });

  it('goes on at once when it is unmuted, also where the system doesn’t list its devices any more', async () => {
    const { track, told, devices } = watch();
    await vi.advanceTimersByTimeAsync(1500);
    devices.enumerateDevices = () => new Promise(() => undefined);
    track.muted = true;
    track.dispatchEvent(new Event('mute'));
    track.muted = false;
    track.dispatchEvent(new Event('unmute'));
    expect(told).toEqual(['input-muted', 'over input-muted']);
  });

  it('takes a mute back when the input is lost meanwhile: one thing stands', async () => {
    const { track, told } = watch();
    track.muted = true;
    track.dispatchEvent(new Event('mute'));
    track.readyState = 'ended';
    track.dispatchEvent(new Event('ended'));
    await vi.advanceTimersByTimeAsync(3000);
    expect(told).toEqual(['input-muted', 'input-lost', 'over input-muted']);
  });

  it('sees by polling what no event tells: another device; the stream is another’s from then on, also when the name is the old one again', async () => {
    const { track, told, devices } = watch();
    await vi.advanceTimersByTimeAsync(1500);
    track.label = 'Webcam';
    await vi.advanceTimersByTimeAsync(2500);
    track.label = 'Two inputs';
    await vi.advanceTimersByTimeAsync(2500);
    devices.list = [];
    devices.dispatchEvent(new Event('devicechange'));
    await vi.advanceTimersByTimeAsync(10);
    expect(told).toEqual(['input-changed']);
  });

  it('lost is lost until it is opened again: the system may have moved the stream, and not have moved it back', async () => {
    const { told, devices } = watch();
    await vi.advanceTimersByTimeAsync(1500);
    const [plugged] = devices.list;
    devices.list = [];
    await vi.advanceTimersByTimeAsync(1500);
    devices.list = plugged ? [plugged] : [];
    await vi.advanceTimersByTimeAsync(3000);
    expect(told).toEqual(['input-lost']);
  });

  it('another sample rate is another input', async () => {
    const { track, told } = watch();
    await vi.advanceTimersByTimeAsync(1500);
    track.getSettings = () => ({ deviceId: 'x', sampleRate: 44_100 });
    await vi.advanceTimersByTimeAsync(1500);
    expect(told).toEqual(['input-changed']);
  });

  it('a device that comes beside one that is named is told to the judge', async () => {
    const { told, devices } = watch();
    await vi.advanceTimersByTimeAsync(1500);
    devices.list = [...devices.list, { kind: 'audioinput', deviceId: 'y', groupId: 'y', label: 'Input y' }];
    await vi.advanceTimersByTimeAsync(3000);
    expect(told).toEqual(['doubt']);
  });

  it.each([
    ['goes may have been it', ['x', 'z']],
    ['comes may be it now', ['x', 'y', 'z', 'w']],
  ])('a default that nobody names: a device that %s', async (_, after) => {
    const list = (ids: string[]) =>
      ['default', ...ids].map((id) => ({ kind: 'audioinput', deviceId: id, groupId: id, label: `Input ${id}` }));
    const devices = new Devices();
    devices.list = list(['x', 'y', 'z']);
    const { told } = watch(devices, 'default');
    await vi.advanceTimersByTimeAsync(3500);
    expect(told).toEqual([]);
    devices.list = list(after);
    await vi.advanceTimersByTimeAsync(3500);
    expect(told.filter((word) => word !== 'doubt')).toEqual(['input-changed']);
  });

  it('bears a list that can’t be had, and is silent once it has ended', async () => {
    const { track, told, devices, end } = watch();
    devices.fails = true;
    await vi.advanceTimersByTimeAsync(3000);
    end();
    track.dispatchEvent(new Event('ended'));
    track.readyState = 'ended';
    await vi.advanceTimersByTimeAsync(5000);
    expect(told).toEqual([]);
  });
});
