/** A pair of a take into the meter: its hits are read at once, and can be heard round and round. */
import type { AudioDoor, MeterEvents, MeterSettings, TakePairSound } from '../link';
import { problem } from '../problems';
import { openContext, startContext } from '../realtimeContext';
import { openAnalysis } from '../recording/analyse';
import type { Recording } from '../recording/audioBuffer';

/** the monitor's level moves this smoothly, s */
const RAMP_SECONDS = 0.05;
const UNHEARD = 'These hits can’t be played here; check the sound output in the system’s settings, then try again.';

export const openTakePair: AudioDoor['openTakePair'] = async (sound, settings, events) => {
  const { given, maxLagMs } = sound;
  const own = (wanted: MeterSettings): MeterSettings => ({ ...wanted, maxLagMs, given });
  const link = await openAnalysis(recordingOf(sound), own(settings), events);
  const heard = new Heard(sound, events);
  return {
    ...link,
    restart: (next) => link.restart(own(next)),
    setMonitorGain: (gain) => heard.setGain(gain),
    async close() {
      heard.close();
      await link.close();
    },
  };
};

function recordingOf({ label, sampleRate, a, b }: TakePairSound): Recording {
  return {
    label,
    sampleRate,
    frames: a.length,
    gaps: [],
    readInto(fromFrame, intoA, intoB) {
      const n = Math.max(0, Math.min(intoA.length, a.length - fromFrame));
      intoA.set(a.subarray(fromFrame, fromFrame + n));
      intoB.set(b.subarray(fromFrame, fromFrame + n));
      return n;
    },
  };
}

/** A left, B right, round and round; no output is opened before somebody turns it up. */
class Heard {
  private output: { context: AudioContext; monitor: GainNode } | null = null;
  private wanted = 0;
  private closed = false;

  constructor(
    private readonly sound: TakePairSound,
    private readonly events: MeterEvents,
  ) {}

  setGain(gain: number): void {
    this.wanted = Number.isFinite(gain) ? Math.min(1, Math.max(0, gain)) : 0;
    if (this.output === null && this.wanted > 0) this.begin();
    this.follow();
  }

  private follow(): void {
    const { output, wanted } = this;
    output?.monitor.gain.setTargetAtTime(wanted, output.context.currentTime, RAMP_SECONDS);
  }

  private begin(): void {
    if (this.closed) return;
    const { sampleRate, a, b } = this.sound;
    const context = openContext({ sampleRate, silent: false });
    const buffer = new AudioBuffer({ numberOfChannels: 2, length: a.length, sampleRate });
    buffer.copyToChannel(a as Float32Array<ArrayBuffer>, 0);
    buffer.copyToChannel(b as Float32Array<ArrayBuffer>, 1);
    const source = new AudioBufferSourceNode(context, { buffer, loop: true });
    const monitor = new GainNode(context, { gain: 0 });
    source.connect(monitor).connect(context.destination);
    source.start();
    this.output = { context, monitor };
    startContext(context).then(
      () => this.follow(),
      () => {
        if (this.closed) return;
        this.end();
        this.events.onProblem(problem('unknown', UNHEARD).problem);
      },
    );
  }

  close(): void {
    this.closed = true;
    this.end();
  }

  private end(): void {
    void this.output?.context.close().catch(() => undefined);
    this.output = null;
  }
}
