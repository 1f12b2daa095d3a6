/** Two inputs of an audio interface, straight into the meter; to the ears only through `LiveEars`, when somebody has asked for it. */
import type { FrameArrival } from '../../reading/frame';
import type { Pictures } from '../../reading/hitPictures';
import type { Reading } from '../../reading/reading';
import type { InputDevice, MeterEvents, MeterLink, MeterSettings, Problem } from '../link';
import { loadMeter, Meter } from '../meterNode';
import { contextProblem, faultProblem, requireWorklet } from '../problems';
import { openContext, startContext, watchData } from '../realtimeContext';
import { DelayJump } from './delayJump';
import { isAlias } from './inputIdentity';
import { InputJudge } from './inputJudge';
import { knownProblem } from './inputProblems';
import { watchInput } from './inputWatch';
import { LiveEars } from './liveEars';
import { MixCheck } from './mixCheck';
import { OneSignalCheck, type TrackFacts } from './oneSignalCheck';
import { openStream } from './openStream';

/** an interface's first half second is its own switching on */
const SKIP_SECONDS = 0.5;

const NOTHING =
  'Nothing arrives from the audio input, not even noise; check the interface, its cable and the system’s sound settings, then press “Try again”.';

const OTHER_INPUT: Problem = {
  code: 'input-changed',
  text: 'The noise between the hits changed in both inputs at once, so the system may have switched to another input; check its sound settings, then press “Try again” and identify A and B again.',
};

/** While nothing came, the system may have handed its default to another device, and nothing would tell of it. */
const BACK_UNNAMED: Problem = {
  code: 'input-changed',
  text: 'The audio stood still and is back, and the system’s default may be another input now; press “Try again” and identify A and B again.',
};

/** The inputs by name; empty until the page was allowed to use one. */
export async function listInputs(): Promise<InputDevice[]> {
  if (!navigator.mediaDevices?.enumerateDevices) throw knownProblem('insecure-page');
  const devices = await navigator.mediaDevices.enumerateDevices().catch(() => []);
  return devices
    .filter((device) => device.kind === 'audioinput' && !isAlias(device.deviceId))
    .map((device, i) => ({ deviceId: device.deviceId, label: device.label || `Input ${i + 1}` }));
}

/**
 * Call it from a press: the browser asks for permission.
 * @param deviceId null: the system's default input
 * @throws ProblemError
 */
export async function openInterface(
  deviceId: string | null,
  settings: MeterSettings,
  events: MeterEvents,
): Promise<MeterLink> {
  const devices = navigator.mediaDevices;
  if (!devices?.getUserMedia) throw knownProblem('insecure-page');
  requireWorklet();

  // the input first: then the context can take the device's own rate, and nothing is resampled
  const { stream, track } = await openStream(devices, deviceId);
  const cleanUp: (() => void)[] = [() => track.stop()];
  const close = async (): Promise<void> => {
    for (const step of cleanUp.splice(0).reverse()) step();
  };

  try {
    const isUnnamed = isAlias(track.getSettings().deviceId);
    const context = openContext({ sampleRate: track.getSettings().sampleRate, silent: true });
    const watch = watchData(context, NOTHING, events, {
      captured: true,
      onLost: (seconds) => meter?.lost(seconds),
      onBack: () => isUnnamed && events.onProblem(BACK_UNNAMED),
    });
    const { data } = watch;
    let meter: Meter | null = null;
    const endGraph = (): void => {
      meter?.disconnect();
      void context.close().catch(() => undefined);
    };
    cleanUp.push(() => watch.close(endGraph));
    await loadMeter(context);
    const source = context.createMediaStreamSource(stream);
    const check = new OneSignalCheck();
    const judge = new InputJudge();
    const jump = new DelayJump();
    const mix = new MixCheck();
    let { swapped, offsetSamples = 0 } = settings;
    const ears = new LiveEars(context, source, SKIP_SECONDS);
    cleanUp.push(() => ears.close());
    ears.begin();
    const onReading = (reading: Reading): void => {
      const finding = check.push(reading, track.getSettings() as TrackFacts);
      if (finding && 'problem' in finding) events.onProblem(finding.problem);
      if (finding && 'over' in finding) events.onProblemOver?.(finding.over);
      const mixed = mix.push(reading);
      if (mixed) events.onProblem(mixed);
      const isOther = judge.push(reading.inputs.noise, swapped);
      if (jump.push(reading, judge.isSuspect) || isOther) events.onProblem(OTHER_INPUT);
      events.onReading(reading);
    };
    const handlers = {
      onReading,
      onPictures: (pictures: Pictures) => events.onPictures?.(pictures),
      onFrame: (arrival: FrameArrival) => data.arrived(arrival),
      onFault: (thrown: unknown) => {
        data.end();
        events.onProblem(faultProblem(thrown).problem);
      },
    };
    const own = new Meter(context, settings, { skipSeconds: SKIP_SECONDS, captured: true }, handlers, source);
    meter = own;
    data.takeIn = () => own.takeIn();
    const over = (code: Problem['code']): void => events.onProblemOver?.(code);
    const report = (problem: Problem): void => events.onProblem(problem);
    cleanUp.push(watchInput(track, devices, report, over, () => judge.doubt()));
    await startContext(context);
    data.begin(true);

    return {
      label: isUnnamed ? 'System default' : track.label || 'Audio input',
      isUnnamed,
      sampleRate: context.sampleRate,
      deviceId: track.getSettings().deviceId ?? '',
      ...own.controls(),
      restart(next) {
        swapped = next.swapped;
        offsetSamples = next.offsetSamples ?? 0;
        const isNew = own.restart(next);
        data.begin(isNew);
      },
      sound: (hitsSeconds) => ears.sound(hitsSeconds, swapped, offsetSamples),
      openLive: (told) => ears.openLive(stream, swapped, told),
      setMonitorGain: () => undefined, // open mics are heard only through the listening path, with its warning
      close,
    };
  } catch (thrown) {
    await close();
    throw contextProblem(thrown);
  }
}
