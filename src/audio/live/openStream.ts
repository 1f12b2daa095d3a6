/**
 * Opens an input by the id of the device itself. “Default” is a name that the system gives to another device when it likes:
 * a stream that was opened by it may be moved, and nothing tells of it.
 */
import { deviceBehind, type InputIdentity, isAlias } from './inputIdentity';
import { inputProblem, knownProblem } from './inputProblems';

export interface OpenStream {
  stream: MediaStream;
  track: MediaStreamTrack;
}

/**
 * @param deviceId null: the system's default
 * @throws ProblemError
 */
export async function openStream(devices: MediaDevices, deviceId: string | null): Promise<OpenStream> {
  // listed with names only where the page was allowed to use an input before
  const wanted = isAlias(deviceId ?? '') ? deviceBehind(deviceId || 'default', await listed(devices)) : null;
  const first = await open(devices, wanted?.deviceId ?? (deviceId || null));
  const opened = first.track.getSettings().deviceId;
  if (!isAlias(opened)) return first;
  const device = deviceBehind(opened || 'default', await listed(devices));
  if (device === null || device.deviceId === opened) return first;
  first.track.stop();
  return open(devices, device.deviceId);
}

async function listed(devices: MediaDevices): Promise<InputIdentity[]> {
  const all = await devices.enumerateDevices().catch(() => []);
  return all.filter(({ kind, deviceId }) => kind === 'audioinput' && deviceId !== '');
}

async function open(devices: MediaDevices, deviceId: string | null): Promise<OpenStream> {
  let stream: MediaStream;
  try {
    stream = await devices.getUserMedia({ audio: constraints(deviceId) });
  } catch (thrown) {
    throw inputProblem(thrown);
  }
  const [track] = stream.getAudioTracks();
  if (!track) throw knownProblem('no-device');
  return { stream, track };
}

function constraints(deviceId: string | null): MediaTrackConstraints {
  return {
    ...(deviceId === null ? {} : { deviceId: { exact: deviceId } }),
    channelCount: { ideal: 2 },
    echoCancellation: false,
    noiseSuppression: false,
    autoGainControl: false,
  };
}
