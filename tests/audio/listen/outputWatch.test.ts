/** Headphones that are unplugged, told by the list of devices. */
import { expect, test, vi } from 'vitest';
import { watchOutputs } from '../../../src/audio/listen/outputWatch';

type Device = Pick<MediaDeviceInfo, 'kind' | 'deviceId' | 'label' | 'groupId'>;
const device = (kind: MediaDeviceKind, deviceId: string, label = deviceId): Device => ({
  kind,
  deviceId,
  label,
  groupId: `of ${deviceId}`,
});

function stage(listed: Device[] | null) {
  const told = { listed };
  const devices = Object.assign(new EventTarget(), {
    enumerateDevices: async () => {
      if (told.listed === null) throw new Error('hidden');
      return told.listed as MediaDeviceInfo[];
    },
  });
  const changed = vi.fn();
  const end = watchOutputs(devices as unknown as MediaDevices, changed);
  const change = async (to: Device[] | null): Promise<number> => {
    told.listed = to;
    devices.dispatchEvent(new Event('devicechange'));
    await new Promise((done) => setTimeout(done));
    return changed.mock.calls.length;
  };
  return { end, change };
}

const mic = device('audioinput', 'mic');
const phones = device('audiooutput', 'phones');
const speakers = device('audiooutput', 'speakers');

test('an output that goes, comes or is another default is told, once; an input isn’t', async () => {
  const begun = [mic, device('audiooutput', 'default', 'Default: phones'), phones, speakers];
  for (const now of [
    begun.filter((one) => one !== phones),
    [...begun, device('audiooutput', 'more')],
    begun.map((one) => (one.deviceId === 'default' ? { ...one, label: 'Default: speakers' } : one)),
  ]) {
    const { change } = stage(begun);
    expect(await change([...begun, device('audioinput', 'other')])).toBe(0);
    expect(await change(now)).toBe(1);
    expect(await change(begun)).toBe(1);
  }
});

test('where outputs aren’t listed, or nothing is, any change counts', async () => {
  const { change } = stage([mic]);
  expect(await change([mic])).toBe(0);
  expect(await change([mic, device('audioinput', 'other')])).toBe(1);
  expect(await stage([mic, phones]).change(null)).toBe(1);
  expect(await stage(null).change(null)).toBe(1);
});

test('ended, it tells nothing', async () => {
  const { end, change } = stage([phones]);
  end();
  expect(await change([])).toBe(0);
});
