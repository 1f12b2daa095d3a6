import { describe, expect, it } from 'vitest';
import { deviceBehind, type InputIdentity } from '../../../src/audio/live/inputIdentity';
import { openStream } from '../../../src/audio/live/openStream';

const one: InputIdentity = { deviceId: 'one', groupId: 'g1', label: 'Interface one' };
const two: InputIdentity = { deviceId: 'two', groupId: 'g2', label: 'Webcam' };
const byDefault = (more: Partial<InputIdentity>): InputIdentity => ({
  deviceId: 'default',
  groupId: 'd',
  label: 'Default',
  ...more,
});

describe('the device behind “default”', () => {
  it('by group, by name in any language, by both', () => {
    expect(deviceBehind('default', [byDefault({ groupId: 'g2' }), one, two])).toBe(two);
    expect(deviceBehind('default', [byDefault({ label: 'Standard - Interface one' }), one, two])).toBe(one);
    const line: InputIdentity = { deviceId: 'line', groupId: 'g1', label: 'Interface one, line' };
    expect(
      deviceBehind('default', [byDefault({ groupId: 'g1', label: 'Default - Interface one' }), line, one, two]),
    ).toBe(one);
    expect(deviceBehind('communications', [byDefault({ deviceId: 'communications', groupId: 'g1' }), one, two])).toBe(
      one,
    );
  });
  it('the only one there is', () => {
    expect(deviceBehind('default', [byDefault({}), one])).toBe(one);
    expect(deviceBehind('default', [one])).toBe(one);
  });
  it('nobody says: none', () => {
    expect(deviceBehind('default', [byDefault({}), one, two])).toBe(null);
    expect(deviceBehind('default', [one, two])).toBe(null);
    expect(deviceBehind('default', [])).toBe(null);
    const twin = { ...two, groupId: 'g1' };
    expect(deviceBehind('default', [byDefault({ groupId: 'g1' }), one, twin])).toBe(null);
    // a name of one, the group of another
    expect(deviceBehind('default', [byDefault({ groupId: 'g2', label: 'Default - Interface one' }), one, two])).toBe(
      null,
    );
  });
});

/** A browser that lists names only once it was allowed to use an input. */
function browser(
  list: InputIdentity[],
  allowed: boolean,
  names: (asked: string | null) => string = (asked) => asked ?? 'default',
) {
  const log: string[] = [];
  let granted = allowed;
  const devices = {
    enumerateDevices: async () =>
      list.map((one) => ({ kind: 'audioinput', ...(granted ? one : { deviceId: '', groupId: '', label: '' }) })),
    async getUserMedia({ audio }: { audio: { deviceId?: { exact: string } } }) {
      const asked = audio.deviceId?.exact ?? null;
      log.push(`open ${asked ?? 'default'}`);
      granted = true;
      const deviceId = names(asked);
      const track = { getSettings: () => ({ deviceId }), stop: () => log.push(`stop ${deviceId}`) };
      return { getAudioTracks: () => [track] };
    },
  };
  return { devices: devices as unknown as MediaDevices, log };
}

describe('the input is opened by the id of the device itself', () => {
  const list = [byDefault({ groupId: 'g1' }), one, two];

  it('the first time: the default, then what it stands for, one after the other', async () => {
    const { devices, log } = browser(list, false);
    const { track } = await openStream(devices, null);
    expect(log).toEqual(['open default', 'stop default', 'open one']);
    expect(track.getSettings().deviceId).toBe('one');
  });
  it('later: at once', async () => {
    const { devices, log } = browser(list, true);
    await openStream(devices, null);
    expect(log).toEqual(['open one']);
  });
  it('a name that was remembered is none', async () => {
    const { devices, log } = browser(list, true);
    await openStream(devices, 'default');
    expect(log).toEqual(['open one']);
  });
  it('one that was chosen: that one', async () => {
    const { devices, log } = browser(list, true);
    await openStream(devices, 'two');
    expect(log).toEqual(['open two']);
  });
  it('where the browser says by itself which one it opened, nothing is opened twice', async () => {
    const { devices, log } = browser([one, two], false, (asked) => asked ?? 'two');
    await openStream(devices, null);
    expect(log).toEqual(['open default']);
  });
  it('where nobody says, the default itself', async () => {
    const { devices, log } = browser([byDefault({}), one, two], false);
    await openStream(devices, null);
    expect(log).toEqual(['open default']);
  });
});
