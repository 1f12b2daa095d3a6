/**
 * Watches an open input. A browser may move a stream to another device without any event, so the list and the track
 * are looked at every second beside the events.
 */
import type { Problem } from '../link';
import { type InputIdentity, isAlias } from './inputIdentity';

const POLL_MS = 1000;

const LOST: Problem = {
  code: 'input-lost',
  text: 'The audio interface has disconnected; monitors down, plug it back in, then press “Try again”.',
};
const OTHER_RATE: Problem = {
  code: 'input-changed',
  text: 'The audio input runs at another sample rate than before; press “Try again” and identify A and B again.',
};
const MUTED: Problem = {
  code: 'input-muted',
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
    text: `The system has switched from “${opened.trackLabel}” to “${name}”; check the system’s sound settings, then press “Try again” and identify A and B again.`,
  };
}

/**
 * Opened as the system's default, and nothing tells which device that is: one that goes may have been it, one that comes may be it
 * now.
 * @param before, listed without the default itself
 * @returns what may have happened; null: nothing
 */
export function defaultChange(before: readonly InputIdentity[], listed: readonly InputIdentity[]): Problem | null {
  // a list that is hidden tells nothing
  if (listed.length === 0) return null;
  const gone = missingFrom(listed, before)[0];
  const device = gone ?? missingFrom(before, listed)[0];
  if (!device) return null;
  const name = device.label || 'An input';
  return {
    code: 'input-changed',
    text: `“${name}” has ${gone ? 'disconnected' : 'connected'}, and the system’s default may be another input now; press “Try again” and identify A and B again.`,
  };
}

const missingFrom = (those: readonly InputIdentity[], all: readonly InputIdentity[]): InputIdentity[] =>
  all.filter(({ deviceId }) => !those.some((one) => one.deviceId === deviceId));

/** Two that are lost to whoever was measuring: the stream may come from elsewhere, also when the device is back. */
const LASTING: readonly Problem['code'][] = ['input-lost', 'input-changed'];

/**
 * Begins to watch; returns the function that ends it.
 * @param doubt called when another device has come, which the system may have made its default
 */
export function watchInput(
  track: MediaStreamTrack,
  devices: MediaDevices,
  report: (problem: Problem) => void,
  over: (code: Problem['code']) => void,
  doubt: () => void = () => undefined,
): () => void {
  let opened: (InputIdentity & { trackLabel: string }) | null = null;
  let others: InputIdentity[] | null = null;
  const trackLabel = track.label;
  const { sampleRate } = track.getSettings();
  let reported: Problem | null = null;
  let ended = false;

  const isLasting = (): boolean => reported !== null && LASTING.includes(reported.code);
  const tell = (problem: Problem): void => {
    if (ended || isLasting() || (reported?.code === problem.code && reported.text === problem.text)) return;
    const before = reported?.code;
    reported = problem;
    report(problem);
    if (before !== undefined && before !== problem.code) over(before);
  };
  const clear = (): void => {
    if (ended || !reported || isLasting()) return;
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
    const { deviceId: trackDeviceId, sampleRate: trackRate } = track.getSettings();
    const own = opened ? undefined : listed.find((input) => input.deviceId === trackDeviceId);
    if (own) opened = { deviceId: own.deviceId, groupId: own.groupId, label: own.label, trackLabel };
    // a browser that hides its list gives nothing to compare with
    const change = opened ? inputChange(opened, track.label, trackDeviceId, listed) : null;
    const real = listed.filter(({ deviceId }) => !isAlias(deviceId));
    others ??= real;
    const came = missingFrom(others, real);
    const moved = isAlias(trackDeviceId) ? defaultChange(others, real) : null;
    others.push(...came);
    if (came.length > 0) doubt();
    const other = change ?? moved;
    if (other) tell(other);
    else if (trackRate !== sampleRate) tell(OTHER_RATE);
    else if (track.muted) tell(MUTED);
    else clear();
  };
  const onEnded = (): void => tell(LOST);
  const onMute = (): void => tell(MUTED);
  const onUnmute = (): void => {
    // a system that is stuck may not list its devices either
    if (reported === MUTED) clear();
    void look();
  };
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
