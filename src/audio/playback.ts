/** A buffer at speed through the meter node: a recording once, a demo scene round and round; silent unless asked. */
import type { MeterEvents, MeterLink, MeterSettings, Problem } from './link';
import { loadMeter, Meter } from './meterNode';
import { contextProblem, faultProblem, requireWorklet } from './problems';
import { openContext, watchContext } from './realtimeContext';

/** the monitor's level moves this smoothly, s */
const RAMP_SECONDS = 0.05;

export interface Playback {
  label: string;
  buffer: AudioBuffer;
  loop: boolean;
}

/** @throws ProblemError */
export async function openPlayback(what: Playback, settings: MeterSettings, events: MeterEvents): Promise<MeterLink> {
  requireWorklet();
  const { buffer, loop, label } = what;
  const context = openContext({ sampleRate: buffer.sampleRate, silent: false });
  let closed = false;
  let endWatch = (): void => undefined;
  const close = async (): Promise<void> => {
    if (closed) return;
    closed = true;
    endWatch();
    meter?.disconnect();
    await context.close().catch(() => undefined);
  };
  const report = (problem: Problem): void => {
    if (!closed) events.onProblem(problem);
  };
  let meter: Meter | null = null;
  try {
    await loadMeter(context);
    const monitor = new GainNode(context, { gain: 0 });
    monitor.connect(context.destination);
    let startedAt = 0;
    let ended = false;
    const start = (): AudioBufferSourceNode => {
      const source = new AudioBufferSourceNode(context, { buffer, loop });
      source.connect(monitor);
      source.onended = () => {
        ended = true;
        if (!closed) meter?.flush();
      };
      ended = false;
      startedAt = context.currentTime;
      return source;
    };
    let source = start();
    const own = new Meter(
      context,
      settings,
      {},
      {
        onReading(reading, last) {
          if (closed) return;
          events.onReading(reading);
          if (!loop) events.onProgress(Math.min(1, (context.currentTime - startedAt) / buffer.duration));
          if (last && ended) events.onEnded();
        },
        onPictures: (pictures) => void (closed || events.onPictures?.(pictures)),
        onFault: (thrown) => report(faultProblem(thrown).problem),
      },
      source,
    );
    meter = own;
    endWatch = await watchContext(context, report, (code) => events.onProblemOver?.(code));
    startedAt = context.currentTime;
    source.start();

    return {
      label,
      sampleRate: context.sampleRate,
      ...own.controls(),
      restart(next) {
        if (closed) return;
        own.restart(next);
        if (!ended) return;
        source = start();
        own.feedFrom(source);
        source.start();
      },
      setMonitorGain(gain) {
        const wanted = Number.isFinite(gain) ? Math.min(1, Math.max(0, gain)) : 0;
        monitor.gain.setTargetAtTime(wanted, context.currentTime, RAMP_SECONDS);
      },
      close,
    };
  } catch (thrown) {
    await close();
    throw contextProblem(thrown);
  }
}
