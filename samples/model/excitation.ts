/**
 * What a stick or beater does in time: the contact, and the head's modes that it sets off. Everything here is a formula of
 * continuous time, put down at the inner rate from its exact onset, so that an arrival between two samples is exact and
 * nothing sounds before it.
 */
import { type Biquad, runBiquad } from './biquad';
import { INNER_RATE, type Loop } from './loop';
import type { Random } from './random';

/** Force of the contact: sin² over `contactSeconds`, peak 1. */
export function contactForce(t: number, contactSeconds: number): number {
  if (t <= 0 || t >= contactSeconds) return 0;
  const s = Math.sin((Math.PI * t) / contactSeconds);
  return s * s;
}

/** The push at the place struck: the contact, then the head's slower spring back, of the same area. */
export function addPush(to: Loop, onsetSeconds: number, gain: number, contactSeconds: number): void {
  addContact(to, onsetSeconds, gain, contactSeconds);
  addContact(to, onsetSeconds + contactSeconds, -gain / 3, 3 * contactSeconds);
}

/** A contact alone, without the spring back: a beater's hard core, while its felt still pushes. */
export function addContact(to: Loop, onsetSeconds: number, gain: number, contactSeconds: number): void {
  const first = Math.ceil(onsetSeconds * INNER_RATE);
  const end = (onsetSeconds + contactSeconds) * INNER_RATE;
  for (let i = first; i < end; i++) to.add(i, gain * contactForce(i / INNER_RATE - onsetSeconds, contactSeconds));
}

/** Where a mode has decayed so far that it is left out: −100 dB. */
const INAUDIBLE = 1e-5;

/**
 * Velocity of one damped mode driven by the contact: Re ∫ e(τ)·exp(s(t−τ)) dτ over the contact's area, s = −α + jω, in
 * closed form (e is a constant and two exponentials). During the contact it is evaluated, after it the decay is rotated.
 * @param turn radians: 0 velocity, as said; π/2 displacement, which starts from rest
 */
export function addMode(
  to: Loop,
  onsetSeconds: number,
  gain: number,
  modeHz: number,
  decay60Seconds: number,
  contactSeconds: number,
  turn = 0,
): void {
  const alpha = Math.log(1000) / decay60Seconds;
  const omega = 2 * Math.PI * modeHz;
  const first = Math.ceil(onsetSeconds * INNER_RATE);
  const contactEnd = Math.ceil((onsetSeconds + contactSeconds) * INNER_RATE);
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  for (let i = first; i < contactEnd; i++) {
    const { re, im } = drivenMode(i / INNER_RATE - onsetSeconds, alpha, omega, contactSeconds);
    to.add(i, gain * (turn === 0 ? re : re * cos + im * sin));
  }
  const t = contactEnd / INNER_RATE - onsetSeconds;
  const end = drivenMode(contactSeconds, alpha, omega, contactSeconds);
  const after = exp(-alpha * (t - contactSeconds), omega * (t - contactSeconds));
  let re = gain * (end.re * after.re - end.im * after.im);
  let im = gain * (end.re * after.im + end.im * after.re);
  if (turn !== 0) [re, im] = [re * cos + im * sin, im * cos - re * sin];
  const step = exp(-alpha / INNER_RATE, omega / INNER_RATE);
  const count = Math.ceil((-Math.log(INAUDIBLE) / alpha) * INNER_RATE);
  for (let i = contactEnd; i < contactEnd + count; i++) {
    to.add(i, re);
    const turned = re * step.re - im * step.im;
    im = re * step.im + im * step.re;
    re = turned;
  }
}

interface Complex {
  re: number;
  im: number;
}

/** ∫₀ᵗ e(τ)·exp(s(t−τ)) dτ / (T/2), for 0 ≤ t ≤ T. */
function drivenMode(t: number, alpha: number, omega: number, contactSeconds: number): Complex {
  const big = (2 * Math.PI) / contactSeconds;
  const free = exp(-alpha * t, omega * t);
  const sum = { re: 0, im: 0 };
  for (const [weight, w] of [
    [0.5, 0],
    [-0.25, big],
    [-0.25, -big],
  ]) {
    // (exp(jwt) − exp(st)) / (jw − s)
    const driven = exp(0, w * t);
    const top = { re: driven.re - free.re, im: driven.im - free.im };
    const bottom = { re: alpha, im: w - omega };
    const size = bottom.re * bottom.re + bottom.im * bottom.im;
    sum.re += (weight * (top.re * bottom.re + top.im * bottom.im)) / size;
    sum.im += (weight * (top.im * bottom.re - top.re * bottom.im)) / size;
  }
  return { re: (2 * sum.re) / contactSeconds, im: (2 * sum.im) / contactSeconds };
}

function exp(re: number, im: number): Complex {
  const size = Math.exp(re);
  return { re: size * Math.cos(im), im: size * Math.sin(im) };
}

/** A burst of noise with a shape in time: wires, the crack of a stick, a cymbal. Starts at zero, so no arrival hides in it. */
export class Burst {
  private readonly shape: Float64Array;

  /**
   * @param riseSeconds time constant of the rise
   * @param decay60Seconds time to fall by 60 dB
   */
  constructor(random: Random, filters: readonly Biquad[], riseSeconds: number, decay60Seconds: number) {
    this.shape = new Float64Array(Math.ceil(decay60Seconds * 1.3 * INNER_RATE));
    for (let i = 0; i < this.shape.length; i++) this.shape[i] = random.normal();
    for (const filter of filters) runBiquad(filter, this.shape, this.shape, [0, 0]);
    let power = 0;
    for (const v of this.shape) power += v * v;
    const scale = 1 / Math.sqrt(power / this.shape.length);
    const alpha = Math.log(1000) / decay60Seconds;
    for (let i = 0; i < this.shape.length; i++) {
      const t = i / INNER_RATE;
      this.shape[i] *= scale * (1 - Math.exp(-t / riseSeconds)) * Math.exp(-alpha * t);
    }
  }

  /** RMS at the top of the burst is about `gain`. Between inner samples by a straight line. */
  addTo(to: Loop, onsetSeconds: number, gain: number): void {
    const at = onsetSeconds * INNER_RATE;
    const first = Math.ceil(at);
    const part = first - at;
    for (let i = 0; i + 1 < this.shape.length; i++) {
      to.add(first + i, gain * (this.shape[i] + part * (this.shape[i + 1] - this.shape[i])));
    }
  }
}
