/**
 * A tone in a context of its own, which no measured input is part of. Nothing is switched hard: level, pitch and pulses
 * glide, and it comes up slowly at first.
 */

/** full level, against digital full scale: −18 dBFS for each of two tones at most */
const MOST_GAIN = 0.125;
/** times of the glides, s: to a third of the way */
const GLIDE = { pitch: 0.04, level: 0.05, first: 0.6 };
/** for so long it comes up slowly, s */
const FIRST_SECONDS = 2;
const PULSES_HZ = 3;
/** it falls silent by itself after this, s, unless told again: readings come thirty times a second */
const HOLD_SECONDS = 1.5;

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
  /** when it sounded first, s of the context */
  private firstAt: number | null = null;
  private silent = true;
  private shown: ToneSound = { hz: 0, over: 0 };

  /** To be made in a press: a browser starts no sound by itself. */
  constructor() {
    this.low.connect(this.gate).connect(this.level).connect(this.context.destination);
    this.high.connect(this.over).connect(this.level);
    this.pulses.connect(this.depth).connect(this.gate.gain);
    for (const source of [this.low, this.high, this.pulses]) source.start();
    void this.context.resume().catch(() => undefined);
  }

  /** To be called again and again while it is to sound: a page that hangs goes silent. @param sound null: silence. @param level 0…1, by its square */
  set(sound: ToneSound | null, level: number): void {
    const { gain } = this.level;
    const { currentTime: now } = this.context;
    if (sound === null) {
      if (this.silent) return;
      this.silent = true;
      gain.cancelScheduledValues(now);
      gain.setTargetAtTime(0, now, GLIDE.level);
      return;
    }
    this.shape(sound, now);
    gain.cancelScheduledValues(now);
    this.firstAt ??= now;
    const isFirst = now - this.firstAt < FIRST_SECONDS;
    gain.setTargetAtTime(MOST_GAIN * level ** 2, now, isFirst ? GLIDE.first : GLIDE.level);
    gain.setTargetAtTime(0, now + HOLD_SECONDS, GLIDE.level);
    this.silent = false;
  }

  private shape({ hz, over }: ToneSound, now: number): void {
    if (hz === this.shown.hz && over === this.shown.over) return;
    this.shown = { hz, over };
    const steady = over !== null;
    this.low.frequency.setTargetAtTime(hz, now, GLIDE.pitch);
    if (over !== null) this.high.frequency.setTargetAtTime(over, now, GLIDE.pitch);
    this.over.gain.setTargetAtTime(steady ? 1 : 0, now, GLIDE.level);
    this.depth.gain.setTargetAtTime(steady ? 0 : 0.5, now, GLIDE.level);
    this.gate.gain.setTargetAtTime(steady ? 1 : 0.5, now, GLIDE.level);
  }

  close(): void {
    this.set(null, 0);
    setTimeout(() => void this.context.close().catch(() => undefined), 5000 * GLIDE.level);
  }
}
