/** Two inputs of an audio interface, straight into the meter; never to the loudspeakers. */
import type { FrameArrival } from '../../reading/frame';
import type { Pictures } from '../../reading/hitPictures';
import type { Reading } from '../../reading/reading';
import type { InputDevice, MeterEvents, MeterLink, MeterSettings, Problem } from '../link';
import { loadMeter, Meter } from '../meterNode';
import { contextProblem, faultProblem, requireWorklet } from '../problems';
import { openContext, startContext, watchData } from '../realtimeContext';
import { inputProblem, knownProblem } from './inputProblems';
import { watchInput } from './inputWatch';
import { OneSignalCheck, type TrackFacts } from './oneSignalCheck';

/** an interface's first half second is its own switching on */
const SKIP_SECONDS = 0.5;

const NOTHING =
  'Nothing arrives from the audio input, not even noise; check the interface, its cable and the system’s sound settings, then press “Try again”.';

/** The inputs by name; empty until the page was allowed to use one. */
export async function listInputs(): Promise<InputDevice[]> {
  if (!navigator.mediaDevices?.enumerateDevices) throw knownProblem('insecure-page');
  const devices = await navigator.mediaDevices.enumerateDevices().catch(() => []);
  return devices
    .filter((device) => device.kind === 'audioinput' && device.deviceId !== '' && device.deviceId !== 'communications')
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
  let stream: MediaStream;
  try {
    stream = await devices.getUserMedia({ audio: constraints(deviceId) });
  } catch (thrown) {
    throw inputProblem(thrown);
  }
  const [track] = stream.getAudioTracks();
  if (!track) throw knownProblem('no-device');
  const cleanUp: (() => void)[] = [() => track.stop()];
  const close = async (): Promise<void> => {
    for (const step of cleanUp.splice(0).reverse()) step();
  };

  try {
    const context = openContext({ sampleRate: track.getSettings().sampleRate, silent: true });
    const watch = watchData(context, NOTHING, events);
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
    const onReading = (reading: Reading): void => {
      const finding = check.push(reading, track.getSettings() as TrackFacts);
      if (finding && 'problem' in finding) events.onProblem(finding.problem);
      if (finding && 'over' in finding) events.onProblemOver?.(finding.over);
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
    const own = new Meter(context, settings, { skipSeconds: SKIP_SECONDS }, handlers, source);
    meter = own;
    data.takeIn = () => own.takeIn();
    const over = (code: Problem['code']): void => events.onProblemOver?.(code);
    cleanUp.push(watchInput(track, devices, (problem) => events.onProblem(problem), over));
    await startContext(context);
    data.begin(true);

    return {
      label: track.label || 'Audio input',
      sampleRate: context.sampleRate,
      deviceId: track.getSettings().deviceId ?? '',
      ...own.controls(),
      restart(next) {
        const isNew = own.restart(next);
        data.begin(isNew);
      },
      setMonitorGain: () => undefined, // open microphones are never played back
      close,
    };
  } catch (thrown) {
    await close();
    throw contextProblem(thrown);
  }
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
