/** A simulated take as sound, track by track: the cases' physics, heard by as many microphones as there are. */
import { addBlow, type Blow, makeBlow, type Side } from '../../../samples/model/drum';
import { Burst } from '../../../samples/model/excitation';
import { INNER_RATE } from '../../../samples/model/loop';
import { Random } from '../../../samples/model/random';
import { distance, dot, minus, mirrorImages, type Point } from '../../../samples/model/room';
import type { Strike } from '../../cases/case';
import { electronics } from '../../cases/electronics';
import {
  METAL_FILTERS,
  makeEcho,
  OWN_DECAY60_SECONDS,
  recordEar,
  SPEED,
  STROKE_FILTERS,
  Strip,
} from '../../cases/sound';
import type { TakeMicrophone } from './kitPlaces';
import type { SimulatedTake, TakeDrum } from './simulatedKit';

/** What one microphone hears; `gain` is its cardioid's, towards what sounds. */
class Ear extends Strip {
  gain = 1;

  override add(index: number, value: number): void {
    super.add(index, this.gain * value);
  }
}

/** what reflections come to in a cardioid, on average over all directions: its random energy efficiency, 1/3 */
const DIFFUSE = 1 / Math.sqrt(3);
/** strokes of a drum that are unlike as far as their noise goes: what all hear of them, and what each microphone hears alone; no two of ten alike */
const SHARED = 10;
const OWN = 7;
const OWN_OF_METAL = 3;
/** echoes of a drum that are unlike */
const ECHOES = 5;
/** a harder stroke is brighter: common practice, no source */
const BRIGHTER = 0.4;

/** @returns a track a microphone, ±1 */
export function renderTake(made: SimulatedTake): Float32Array[] {
  const voices = made.drums.map((drum) => new Voice(made.seed, drum));
  return made.microphones.map((microphone, m) => {
    const ear = new Ear(Math.ceil(made.seconds * INNER_RATE));
    if (!microphone.dead) for (const voice of voices) voice.hear(ear, microphone, m);
    ear.gain = 1;
    const tail = new Random(made.seed, `take tail ${microphone.name}`);
    const sound = recordEar(ear, microphone, { converter: 'causal', sampleRate: made.sampleRate }, tail);
    return electronics(sound, microphone, channelRandom(made, microphone), made.sampleRate);
  });
}

/** A track whose cable is out: what its channel adds, and nothing else. */
export function renderDead(made: SimulatedTake, m: number): Float32Array {
  const microphone = made.microphones[m];
  const silence = new Float64Array(Math.floor(made.seconds * made.sampleRate));
  return electronics(silence, microphone, channelRandom(made, microphone), made.sampleRate);
}

const channelRandom = ({ seed }: SimulatedTake, { name }: TakeMicrophone): Random =>
  new Random(seed, `take channel ${name}`);

/** Cardioid, amplitude re its front: (1 + cos)/2, of one sign. A twentieth comes in from behind, as no capsule is ideal. */
function cardioid({ at, aim }: TakeMicrophone, from: Point): number {
  if (aim === null) return 1;
  const cos = dot(minus(aim, at), minus(from, at)) / (distance(aim, at) * distance(from, at));
  return Math.max(0.05, (1 + cos) / 2);
}

/** A drum's or a metal's strokes as any microphone hears them. */
class Voice {
  private readonly shared: { blow: Omit<Blow, keyof Strike>; burst: Burst }[];
  private readonly echoes = new Map<string, Strip>();
  private readonly gain: number;

  constructor(
    private readonly seed: number,
    private readonly source: TakeDrum,
  ) {
    const { drum, metal, spread } = source;
    const random = new Random(seed, `take sound ${source.id}`);
    this.shared = Array.from({ length: SHARED }, () => {
      if (metal) {
        const burst = new Burst(random, METAL_FILTERS, metal.riseSeconds, metal.decay60Seconds);
        return { blow: { crack: burst, wires: null }, burst };
      }
      if (!(drum && spread)) throw new Error(`${source.id} is neither a drum nor a metal`);
      const crack = new Burst(random, STROKE_FILTERS, 3e-4, spread.sharedDecay60Seconds);
      const { wires } = makeBlow(drum, 0, 1, [0, 0, 0], random);
      return { blow: { crack, wires }, burst: crack };
    });
    this.gain = 10 ** (source.levelDb / 20) / this.peakAtOneMetre();
  }

  private peakAtOneMetre(): number {
    const { drum, turns, strikes } = this.source;
    const strip = new Strip(PEAK_SECONDS * INNER_RATE);
    const [{ blow, burst }] = this.shared;
    if (!drum) burst.addTo(strip, 0, 1);
    else {
      const { place } = strikes[0];
      const one = { ...blow, timeSeconds: 0, force: 1, place };
      addBlow(strip, { ...drum, modeTurns: turns[0] }, one, { side: 'batter', at: null }, SPEED);
    }
    return strip.samples.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
  }

  hear(ear: Ear, microphone: TakeMicrophone, m: number): void {
    const random = new Random(this.seed, `take sound ${this.source.id} at ${microphone.name}`);
    if (this.source.metal) this.hearMetal(ear, microphone, random);
    else this.hearDrum(ear, microphone, m, random);
  }

  private hearMetal(ear: Ear, microphone: TakeMicrophone, random: Random): void {
    const { metal, strikes } = this.source;
    if (!metal) return;
    const { riseSeconds, decay60Seconds, shared } = metal;
    const own = Array.from({ length: OWN_OF_METAL }, () => {
      return new Burst(random, METAL_FILTERS, riseSeconds, decay60Seconds);
    });
    strikes.forEach(({ timeSeconds, force, place }, i) => {
      const path = distance(microphone.at, place);
      ear.gain = this.gain * cardioid(microphone, place);
      const at = timeSeconds + path / SPEED;
      this.shared[i % SHARED].burst.addTo(ear, at, (force / path) * Math.sqrt(shared));
      own[i % OWN_OF_METAL].addTo(ear, at, (force / path) * Math.sqrt(1 - shared));
      ear.gain = this.gain;
      // off floor, ceiling and walls comes the same sound, undulled: metal is little else than top
      if (!microphone.room) return;
      const gain = microphone.aim === null ? 1 : DIFFUSE;
      for (const image of mirrorImages(microphone.room, microphone.at)) {
        const way = distance(image.at, place);
        own[(i + 1) % OWN_OF_METAL].addTo(ear, timeSeconds + way / SPEED, (gain * force * image.share) / way);
      }
    });
  }

  private hearDrum(ear: Ear, microphone: TakeMicrophone, m: number, random: Random): void {
    const { drum, spread, strikes, turns, sides } = this.source;
    if (!(drum && spread)) return;
    const wires = drum.wires * Math.sqrt(spread.sharedWires);
    const own = Array.from({ length: OWN }, () => {
      return new Burst(random, STROKE_FILTERS, spread.ownRiseSeconds, OWN_DECAY60_SECONDS);
    });
    const ownGain = Math.max(drum.crack, 0.4 * drum.wires) * spread.ownLevel;
    const side = sides[m];
    strikes.forEach((strike, i) => {
      const { timeSeconds, force, place } = strike;
      const { blow } = this.shared[i % SHARED];
      const heard = { ...drum, wires, modeTurns: turns[m], crack: drum.crack * force ** BRIGHTER };
      const path = distance(microphone.at, place);
      ear.gain = this.gain * cardioid(microphone, place);
      addBlow(ear, heard, { ...blow, ...strike }, { side, at: microphone.at }, SPEED);
      own[i % OWN].addTo(ear, timeSeconds + path / SPEED, (ownGain * force) / path);
      const { gain } = ear;
      ear.gain = 1;
      for (const { extraCm, share } of microphone.detours) {
        const echo = this.echo(i, side === 'inside' ? 'resonant' : side, microphone.room?.dullHz ?? DULL_HZ);
        ear.addShifted(echo, timeSeconds + (path + extraCm / 100) / SPEED, (gain * force * share) / path);
      }
      if (!microphone.room) return;
      const diffuse = this.gain * (microphone.aim === null ? 1 : DIFFUSE);
      for (const image of mirrorImages(microphone.room, microphone.at)) {
        const behind: Side = dot(minus(image.at, drum.head), drum.axis) > 0 ? 'resonant' : 'batter';
        const way = distance(image.at, place);
        const echo = this.echo(i, behind, microphone.room.dullHz);
        ear.addShifted(echo, timeSeconds + way / SPEED, (diffuse * force * image.share) / way);
      }
    });
  }

  /** A stroke of force 1 as it comes back; of as many kinds as there are noises. */
  private echo(i: number, side: Side, dullHz: number): Strip {
    const { drum, strikes, turns } = this.source;
    const key = `${i % ECHOES} ${side} ${dullHz}`;
    const found = this.echoes.get(key);
    if (found) return found;
    if (!drum) throw new Error(`${this.source.id} is no drum`);
    const { place } = strikes[i % ECHOES];
    const blow = { ...this.shared[i % ECHOES].blow, timeSeconds: 0, force: 1, place };
    const made = makeEcho({ ...drum, modeTurns: turns[0] }, blow, side, dullHz);
    this.echoes.set(key, made);
    return made;
  }
}

const DULL_HZ = 5000;
const PEAK_SECONDS = 0.2;
