/** What is advised of each reading, kept from flickering, and what stood before. */
import type { Advice, AdviceContext } from '../../advice/advice';
import { advise } from '../../advice/advise';
import type { Action } from '../../advice/plan/alternatives';
import { createSteadyAdvice } from '../../advice/steady';
import { pathCm } from '../../reading/acoustics';
import { answerOf, type Reading, type Said } from '../../reading/reading';
import { type PlainValue, PreviousValue } from './previous';
import { adviceTurnedOver, turnedOver } from './turnedOver';

/** A change asked of the audio thread is heard within this time, ms. */
const TURN_MS = 400;

export class Adviser {
  private readonly steady = createSteadyAdvice();
  private readonly before = new PreviousValue();
  private drum: number | null = null;
  private chosen: Action | null = null;
  private shown: Advice | null = null;
  private standsOn: Said | null = null;
  private turningUntilMs = Number.NEGATIVE_INFINITY;

  /** the value before the present one; null: none yet */
  get previous(): PlainValue | null {
    return this.before.previous;
  }

  /** what the advice that is shown stands on; null: none is */
  get answer(): Said | null {
    return this.standsOn;
  }

  think(reading: Reading, context: AdviceContext, nowMs: number): Advice {
    // readings sent before a person's change was heard still arrive: they must neither settle nor hold anything back
    const turning = nowMs < this.turningUntilMs;
    if (turning) this.steady.reset();
    this.followDrum(reading.drum);
    const said = answerOf(reading);
    if (!turning && said.state === 'measured') {
      const seconds = said.delaySamples / reading.sampleRate;
      const path = pathCm(seconds, context.temperatureC);
      this.before.update({ polarity: said.polarity, delayMs: seconds * 1000, pathCm: path }, reading.hits);
    }
    const { standing } = this.steady;
    const advice = advise(reading, { ...context, standing, chosen: this.chosen });
    return this.hold(turnedOver(reading) ? adviceTurnedOver(advice) : advice, said, reading);
  }

  /** The words, the figures beside them and the mark are of one reading. */
  private hold(next: Advice, said: Said, reading: Reading): Advice {
    const fed = this.steady.feed(next, reading);
    // the one that was shown, whole: another action waits for a second hit
    if (fed === this.shown) return fed;
    this.shown = fed;
    this.standsOn = said;
    return fed;
  }

  /** Another drum has another delay: nothing of it is the value before. */
  private followDrum(drum: number | null): void {
    if (drum === null || drum === this.drum) return;
    if (this.drum !== null) {
      this.chosen = null;
      this.steady.reset();
      this.before.clear();
    }
    this.drum = drum;
  }

  /** A person takes this one of the alternatives; null: the recommended one again. */
  choose(action: Action | null): void {
    this.chosen = action;
    this.steady.reset();
  }

  /** The next reading speaks at once. */
  rethink(): void {
    this.steady.reset();
  }

  /** A person changed the pair. */
  turn(nowMs: number): void {
    this.chosen = null;
    this.steady.reset();
    this.before.turn();
    this.turningUntilMs = nowMs + TURN_MS;
  }

  /** Another source. */
  clear(): void {
    this.drum = null;
    this.chosen = null;
    this.shown = null;
    this.standsOn = null;
    this.turningUntilMs = Number.NEGATIVE_INFINITY;
    this.steady.reset();
    this.before.clear();
  }
}
