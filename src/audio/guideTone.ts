/**
 * A tone in a context of its own, which no measured input is part of. Nothing is switched hard: level, pitch and pulses
 * glide, and it comes up slowly at first.
 */

/** full level, against digital full scale: −18 dBFS for each of two tones at most */
const MOST_GAIN = 0.125;
/** times of the glides, s: to a third of the way */
const GLIDE = { pitch: 0.04, level: 0.05, first: 0.6 };
const PULSES_HZ = 3;

/** null `over`: one tone, in pulses; else steady, with this one over it */
export interface ToneSound {
  hz: number;
  over: number | null;
}

export class GuideTone {
  private readonly context = new AudioContext({ latencyHint: 'interactive' });
  private readonly low = new OscillatorNode(this.context, { frequency: 220 });
  private readonly high = new OscillatorNode(this.context, { frequency: 330 });
  private readonly pulses = new OscillatorNode(this.context, { frequency: PULSES_HZ });
  private readonly depth = new GainNode(this.context, { gain: 0.5 });
  private readonly gate = new GainNode(this.context, { gain: 0.5 });
  private readonly over = new GainNode(this.context, { gain: 0 });
  private readonly level = new GainNode(this.context, { gain: 0 });
  private heard = false;

  /** To be made in a press: a browser starts no sound by itself. */
  constructor() {
    this.low.connect(this.gate).connect(this.level).connect(this.context.destination);
    this.high.connect(this.over).connect(this.level);
    this.pulses.connect(this.depth).connect(this.gate.gain);
    for (const source of [this.low, this.high, this.pulses]) source.start();
    void this.context.resume().catch(() => undefined);
  }

  /** @param sound null: silence. @param level 0…1, by its square */
  set(sound: ToneSound | null, level: number): void {
    const { currentTime: now } = this.context;
    const to = (param: AudioParam, value: number, seconds: number): void => {
      param.setTargetAtTime(value, now, seconds);
    };
    if (sound === null) {
      to(this.level.gain, 0, GLIDE.level);
      return;
    }
    const steady = sound.over !== null;
    to(this.low.frequency, sound.hz, GLIDE.pitch);
    if (sound.over !== null) to(this.high.frequency, sound.over, GLIDE.pitch);
    to(this.over.gain, steady ? 1 : 0, GLIDE.level);
    to(this.depth.gain, steady ? 0 : 0.5, GLIDE.level);
    to(this.gate.gain, steady ? 1 : 0.5, GLIDE.level);
    to(this.level.gain, MOST_GAIN * level ** 2, this.heard ? GLIDE.level : GLIDE.first);
    this.heard = true;
  }

  close(): void {
    this.set(null, 0);
    setTimeout(() => void this.context.close().catch(() => undefined), 5000 * GLIDE.level);
  }
}
