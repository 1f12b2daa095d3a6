/** What is decided of a drum, and told of it: what the reading shows. Filled in and copied, never made anew. */
import { POOL_HITS } from '../../reading/limits';

export class Told {
  /** NaN, and sign 0, while there is no answer */
  delay = Number.NaN;
  sign = 0;
  spread = Number.NaN;
  agreement = Number.NaN;
  uncertainty = Number.NaN;
  members = 0;
  method = Number.NaN;
  /** a microphone is on the move: `delay` is where it was at the newest hit */
  following = false;
  /** two witnesses are sure of different things */
  contradiction = false;
  /** what is likely answers, and they were */
  disputed = false;
  /** hits of the drum in the running, and with usable first arrivals, as of the decision */
  drumHits = 0;
  usable = 0;
  lowEndA = false;
  lowEndB = false;
  /** something moved, and too few hits came since */
  moved = false;
  hidden = false;
  /** the best fit, and how far noise may move the answer, samples, as of the decision */
  readonly fit = { delay: Number.NaN, sign: 0, sure: false };
  noiseMove = Number.NaN;
  /** 1: the pool's hit i is behind the answer */
  readonly inAnswer = new Uint8Array(POOL_HITS);

  /** the likeliest, while it answers; sign 0: it doesn't */
  protected likelyDelay = Number.NaN;
  protected likelySign = 0;
  /** All of another decision. Real-time safe: yes. */
  become(other: Told): void {
    this.delay = other.delay;
    this.sign = other.sign;
    this.spread = other.spread;
    this.agreement = other.agreement;
    this.uncertainty = other.uncertainty;
    this.members = other.members;
    this.method = other.method;
    this.following = other.following;
    this.contradiction = other.contradiction;
    this.disputed = other.disputed;
    this.drumHits = other.drumHits;
    this.usable = other.usable;
    this.lowEndA = other.lowEndA;
    this.lowEndB = other.lowEndB;
    this.moved = other.moved;
    this.hidden = other.hidden;
    this.fit.delay = other.fit.delay;
    this.fit.sign = other.fit.sign;
    this.fit.sure = other.fit.sure;
    this.noiseMove = other.noiseMove;
    this.likelyDelay = other.likelyDelay;
    this.likelySign = other.likelySign;
    this.inAnswer.set(other.inAnswer);
  }

  /** A drum that begins. Real-time safe: yes. */
  clear(): void {
    this.delay = Number.NaN;
    this.sign = 0;
    this.spread = Number.NaN;
    this.agreement = Number.NaN;
    this.uncertainty = Number.NaN;
    this.members = 0;
    this.method = Number.NaN;
    this.following = false;
    this.contradiction = false;
    this.disputed = false;
    this.likelySign = 0;
    this.drumHits = 0;
    this.usable = 0;
    this.lowEndA = false;
    this.lowEndB = false;
    this.moved = false;
    this.hidden = false;
    this.fit.delay = Number.NaN;
    this.fit.sign = 0;
    this.fit.sure = false;
    this.noiseMove = 0;
    this.inAnswer.fill(0);
  }
}
