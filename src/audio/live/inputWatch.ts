/**
 * Watches an open input. A browser may move a stream to another device without any event, so the list and the track
 * are looked at every second beside the events.
 */
import type { Problem } from '../link';

const POLL_MS = 1000;

/** What tells one device from another. */
export interface InputIdentity {
  deviceId: string;
  groupId: string;
  label: string;
}

const LOST: Problem = {
  code: 'input-lost',
  text: 'The audio interface has disconnected; monitors down, plug it back in, then connect again.',
};
const MUTED: Problem = {
  code: 'input-lost',
  text: 'The system has muted this audio input, so nothing arrives; unmute it in the system’s sound settings, and the meter carries on.',
};

/**
 * What became of an input.
 * @param opened the input as listed when it was opened, and the label that its track had then
 * @param trackLabel, trackDeviceId what the track says now
 * @param listed what the system lists now
 */
export function inputChange(
  opened: InputIdentity & { trackLabel: string },
  trackLabel: string,
  trackDeviceId: string | undefined,
  listed: readonly InputIdentity[],
): Problem | null {
  const now = listed.find((input) => input.deviceId === opened.deviceId);
  if (!now) return LOST;
  const sameTrack = trackLabel === opened.trackLabel && (trackDeviceId ?? opened.deviceId) === opened.deviceId;
  if (sameTrack && now.label === opened.label && now.groupId === opened.groupId) return null;
  const name = (sameTrack ? now.label : trackLabel) || 'another device';
  return {
    code: 'input-changed',
    text: `The system has switched from “${opened.trackLabel}” to “${name}”; choose the input again and connect.`,
  };
}

/** Begins to watch; returns the function that ends it. */
export function watchInput(
  track: MediaStreamTrack,
  devices: MediaDevices,
  report: (problem: Problem) => void,
  over: (code: Problem['code']) => void,
): () => void {
  let opened: (InputIdentity & { trackLabel: string }) | null = null;
  const trackLabel = track.label;
  let reported: Problem | null = null;
  let ended = false;

  const tell = (problem: Problem): void => {
    if (ended || reported === problem || (reported?.code === problem.code && reported.text === problem.text)) return;
    reported = problem;
    report(problem);
  };
  const clear = (): void => {
    if (ended || !reported) return;
    const { code } = reported;
    reported = null;
    over(code);
  };
  const look = async (): Promise<void> => {
    let listed: InputIdentity[];
    try {
      listed = (await devices.enumerateDevices()).filter((device) => device.kind === 'audioinput');
    } catch {
      return; // asked again in a second
    }
    // looked at after the wait: it may have ended meanwhile
    if (track.readyState === 'ended') return tell(LOST);
    const trackDeviceId = track.getSettings().deviceId;
    const own = opened ? undefined : listed.find((input) => input.deviceId === trackDeviceId);
    if (own) opened = { deviceId: own.deviceId, groupId: own.groupId, label: own.label, trackLabel };
    // a browser that hides its list gives nothing to compare with
    const change = opened ? inputChange(opened, track.label, trackDeviceId, listed) : null;
    if (change) tell(change);
    else if (track.muted) tell(MUTED);
    else clear();
  };
  const onEnded = (): void => tell(LOST);
  const onMute = (): void => tell(MUTED);
  const onUnmute = (): void => void look();
  const onChange = (): void => void look();

  track.addEventListener('ended', onEnded);
  track.addEventListener('mute', onMute);
  track.addEventListener('unmute', onUnmute);
  devices.addEventListener('devicechange', onChange);
  const timer = setInterval(onChange, POLL_MS);
  void look();

  return () => {
    ended = true;
    clearInterval(timer);
    track.removeEventListener('ended', onEnded);
    track.removeEventListener('mute', onMute);
    track.removeEventListener('unmute', onUnmute);
    devices.removeEventListener('devicechange', onChange);
  };
}
