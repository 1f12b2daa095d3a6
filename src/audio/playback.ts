/** A buffer at speed through the meter node: a recording once, a demo scene round and round; silent unless asked. */
import { fetchProgram } from './fetchProgram';
import type { MeterEvents, MeterLink, MeterSettings, Problem } from './link';
import { loadMeter, Meter } from './meterNode';
import { contextProblem, faultProblem, requireWorklet } from './problems';
import { openContext, startContext, watchData } from './realtimeContext';

/** the monitor's level moves this smoothly, s */
const RAMP_SECONDS = 0.05;

const NOTHING =
  'The browser’s audio stands still, so nothing is measured; check the sound output in the system’s settings, then press “Try again”.';

export interface Playback {
  label: string;
  buffer: AudioBuffer;
  /** what is heard of it; the buffer unless told */
  audible?: AudioBuffer;
  loop: boolean;
}

/** @throws ProblemError */
export async function openPlayback(what: Playback, settings: MeterSettings, events: MeterEvents): Promise<MeterLink> {
  requireWorklet();
  const { buffer, audible = buffer, loop, label } = what;
  const context = openContext({ sampleRate: buffer.sampleRate, silent: false });
  let closed = false;
  const told = {
    onProblem: (problem: Problem) => void (closed || events.onProblem(problem)),
    onProblemOver: (code: Problem['code']) => void (closed || events.onProblemOver?.(code)),
  };
  // what is played from memory may be late, but is whole
  const watch = watchData(context, NOTHING, told, { captured: false, onLost: () => undefined });
  const close = async (): Promise<void> => {
    if (closed) return;
    closed = true;
    watch.close(() => {
      meter?.disconnect();
      void context.close().catch(() => undefined);
    });
  };
  const { data } = watch;
  let meter: Meter | null = null;
  let { swapped } = settings;
  try {
    await loadMeter(context);
    const monitor = new GainNode(context, { gain: 0 });
    monitor.connect(context.destination);
    let startedAt = 0;
    let ended = false;
    let heard: AudioBufferSourceNode;
    const start = (): AudioBufferSourceNode => {
      const source = new AudioBufferSourceNode(context, { buffer, loop });
      heard = audible === buffer ? source : new AudioBufferSourceNode(context, { buffer: audible, loop });
      heard.connect(monitor);
      source.onended = () => {
        ended = true;
        data.end();
        if (!closed) meter?.flush();
      };
      ended = false;
      startedAt = context.currentTime;
      return source;
    };
    const play = (): void => {
      source.start();
      if (heard !== source) heard.start();
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
        // a recording may be silent for long
        onFrame: (arrival) => data.arrived({ ...arrival, empty: false }),
        onFault(thrown) {
          data.end();
          if (!closed) events.onProblem(faultProblem(thrown).problem);
        },
      },
      source,
    );
    meter = own;
    data.takeIn = () => own.takeIn();
    await startContext(context);
    startedAt = context.currentTime;
    play();
    data.begin(true);

    return {
      label,
      sampleRate: context.sampleRate,
      ...own.controls(),
      restart(next) {
        if (closed) return;
        swapped = next.swapped;
        const isNew = own.restart(next);
        data.begin(isNew);
        if (!ended) return;
        source = start();
        own.feedFrom(source);
        play();
      },
      async sound(hitsSeconds) {
        const { loopedSound, playedSound } = await fetchProgram(() => import('./listen/program'));
        if (loop) return loopedSound(audible, swapped, hitsSeconds);
        const played = ended ? buffer.duration : context.currentTime - startedAt;
        return playedSound(audible, swapped, hitsSeconds, played);
      },
      setMonitorGain(gain) {
        if (watch.isStuck()) return;
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
