/**
 * A recording through the meter node as fast as the machine can, at its own rate, off the page's thread.
 *
 * An offline context does not hear messages while it renders, so it is stopped every second of audio: there it hears what
 * was seen, progress is told and a close takes effect. At the end it stays stopped, so that invert and hold still
 * reach the finished reading.
 */

import { fetchProgram } from '../fetchProgram';
import type { MeterEvents, MeterLink, MeterSettings } from '../link';
import { loadMeter, Meter } from '../meterNode';
import { contextProblem, faultProblem, requireWorklet } from '../problems';
import { type Recording, toAudioBuffer } from './audioBuffer';

const STEP_SECONDS = 1;
const READINGS_PER_SECOND = 4;
/** room behind the recording for the last stop, frames: many render quanta */
const TAIL_FRAMES = 8192;

/** Firefox 153 can't: all of it is rendered in one go, and readings come as messages meanwhile. */
const CAN_STOP = typeof globalThis.OfflineAudioContext?.prototype.suspend === 'function';

/** @throws ProblemError */
export async function openAnalysis(
  recording: Recording,
  settings: MeterSettings,
  events: MeterEvents,
): Promise<MeterLink> {
  requireWorklet();
  const buffer = await toAudioBuffer(recording);
  let pass = new Pass(buffer, settings, events);
  let hold = false;
  let inverted = settings.invertB;
  let { swapped } = settings;
  await pass.begin();
  return {
    label: recording.label,
    sampleRate: recording.sampleRate,
    hold(on) {
      hold = on;
      pass.meter?.hold(on);
    },
    invertB(on) {
      inverted = on;
      pass.meter?.invertB(on);
    },
    chooseDrum: (id) => pass.meter?.chooseDrum(id),
    pictures: (wish) => pass.meter?.pictures(wish),
    restart(next) {
      pass.stop();
      inverted = next.invertB;
      swapped = next.swapped;
      pass = new Pass(buffer, next, events);
      const begun = pass;
      begun.begin().then(
        () => {
          // pressed while the pass was getting under way
          begun.meter?.hold(hold);
          begun.meter?.invertB(inverted);
        },
        (thrown: unknown) => events.onProblem(contextProblem(thrown).problem),
      );
    },
    async sound(hitsSeconds) {
      const { analysedSound } = await fetchProgram(() => import('../listen/program'));
      return analysedSound(buffer, swapped, hitsSeconds);
    },
    setMonitorGain: () => undefined, // faster than anyone can listen
    async close() {
      pass.stop();
    },
  };
}

/** One run over the recording. */
class Pass {
  meter: Meter | null = null;
  private stopped = false;
  private ended: () => void = () => undefined;
  private context: OfflineAudioContext | null = null;

  constructor(
    private readonly buffer: AudioBuffer,
    private readonly settings: MeterSettings,
    private readonly events: MeterEvents,
  ) {}

  /** Resolves when the run is on its way. */
  async begin(): Promise<void> {
    const { length, sampleRate } = this.buffer;
    let context: OfflineAudioContext;
    try {
      context = new OfflineAudioContext(1, length + TAIL_FRAMES, sampleRate);
    } catch (thrown) {
      throw contextProblem(thrown, sampleRate);
    }
    this.context = context;
    await loadMeter(context);
    if (this.stopped) return;
    const source = new AudioBufferSourceNode(context, { buffer: this.buffer });
    const meter = new Meter(
      context,
      this.settings,
      { readingsPerSecond: READINGS_PER_SECOND, live: false },
      {
        onReading: (reading, last) => {
          if (this.stopped) return;
          this.events.onReading(reading);
          if (last) this.ended();
        },
        onPictures: (pictures) => void (this.stopped || this.events.onPictures?.(pictures)),
        onFault: (thrown) => {
          if (!this.stopped) this.events.onProblem(faultProblem(thrown).problem);
          this.stop();
        },
      },
      source,
    );
    this.meter = meter;
    source.start(0);
    this.runThrough(context, meter).catch((thrown: unknown) => {
      if (!this.stopped) this.events.onProblem(contextProblem(thrown).problem);
    });
  }

  private async runThrough(context: OfflineAudioContext, meter: Meter): Promise<void> {
    const { duration } = this.buffer;
    if (CAN_STOP) await this.runInSteps(context, duration);
    else await context.startRendering();
    if (this.stopped) return;
    const last = new Promise<void>((resolve) => {
      this.ended = resolve;
    });
    meter.flush();
    await last;
    if (!this.stopped) this.events.onEnded();
  }

  private async runInSteps(context: OfflineAudioContext, duration: number): Promise<void> {
    for (let at = STEP_SECONDS, started = false; ; at += STEP_SECONDS) {
      const stop = context.suspend(Math.min(at, duration));
      if (started) void context.resume();
      else context.startRendering().catch(() => undefined);
      started = true;
      await stop;
      if (this.stopped) return this.release();
      this.events.onProgress(Math.min(1, at / duration));
      if (at >= duration) return;
    }
  }

  stop(): void {
    if (this.stopped) return;
    this.stopped = true;
    this.meter?.disconnect();
    this.release();
  }

  /** Let the rest render empty: a context stopped for good would keep its memory. */
  private release(): void {
    if (CAN_STOP) void this.context?.resume().catch(() => undefined);
  }
}
