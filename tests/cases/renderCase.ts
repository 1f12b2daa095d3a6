/** Two channels of sound from a case: the demo kit's physics, blow by blow, so that a microphone may move meanwhile. */

import { addBlow, type Blow, type Drum, makeBlow, type Side } from '../../samples/model/drum';
import { addMode, Burst } from '../../samples/model/excitation';
import { INNER_RATE } from '../../samples/model/loop';
import { Random } from '../../samples/model/random';
import { distance, dot, minus, mirrorImages } from '../../samples/model/room';
import type { CaseMicrophone, CaseSource, KitCase, Metal, Ring } from './case';
import { electronics } from './electronics';
import { METAL_FILTERS, makeEcho, NOISES, OWN_DECAY60_SECONDS, recordEar, SPEED, STROKE_FILTERS, Strip } from './sound';
import { standsAt } from './truth';

export interface CaseSound {
  a: Float32Array;
  b: Float32Array;
  sampleRate: number;
}

export function renderCase(made: KitCase): CaseSound {
  const ears = { a: new Strip(made.seconds * INNER_RATE), b: new Strip(made.seconds * INNER_RATE) };
  const random = new Random(made.seed, 'sound');
  for (const source of made.sources) {
    if (source.drum) hearDrum(made, ears, source, source.drum, random);
    else if (source.metal) hearMetal(made, ears, source, source.metal, random);
    else if (source.ring) hearRing(made, ears, source, source.ring);
  }
  const a = electronics(
    recorded(made, made.a, ears.a, 'a'),
    made.a,
    new Random(made.seed, 'channel a'),
    made.sampleRate,
  );
  if (made.copyGain !== null) {
    const gain = made.copyGain * (made.wiredInverted ? -1 : 1);
    return { a, b: a.map((v) => gain * v), sampleRate: made.sampleRate };
  }
  const b = recorded(made, made.b, ears.b, 'b');
  if (made.wiredInverted) for (let i = 0; i < b.length; i++) b[i] = -b[i];
  return {
    a,
    b: electronics(b, made.b, new Random(made.seed, 'channel b'), made.sampleRate),
    sampleRate: made.sampleRate,
  };
}

type Echoes = Partial<Record<Side, Strip>>;
type Ears = { a: Strip; b: Strip };

function hearDrum(made: KitCase, ears: Ears, source: CaseSource, drum: Drum, random: Random): void {
  const { spread } = source;
  if (!spread) return;
  const wires = drum.wires * Math.sqrt(spread.sharedWires);
  const drums = { a: { ...drum, wires, modeTurns: spread.turnsA }, b: { ...drum, wires, modeTurns: spread.turnsB } };
  const burst = (rise: number, decay60: number): Burst => new Burst(random, STROKE_FILTERS, rise, decay60);
  const noises = Array.from({ length: NOISES }, () => ({
    blow: { ...makeBlow(drum, 0, 1, [0, 0, 0], random), crack: burst(3e-4, spread.sharedDecay60Seconds) },
    a: burst(spread.ownRiseSeconds, OWN_DECAY60_SECONDS),
    b: burst(spread.ownRiseSeconds, OWN_DECAY60_SECONDS),
  }));
  const ownGain = Math.max(drum.crack, 0.4 * drum.wires) * spread.ownLevel;
  source.strikes.forEach((strike, i) => {
    const noise = noises[i % NOISES] as (typeof noises)[0];
    hearBlow(made, ears, source, drums, { ...noise.blow, ...strike });
    for (const name of ['a', 'b'] as const) {
      if (source[name] === null || made[name].dead) continue;
      const path = distance(standsAt(made[name], strike.timeSeconds), strike.place);
      noise[name].addTo(ears[name], strike.timeSeconds + path / SPEED, (ownGain * strike.force) / path);
    }
  });
}

function hearBlow(made: KitCase, ears: Ears, source: CaseSource, drums: { a: Drum; b: Drum }, blow: Blow): void {
  const echoes: Echoes = {};
  const dullHz = (made.a.room ?? made.b.room)?.dullHz ?? 5000;
  for (const name of ['a', 'b'] as const) {
    const side = source[name];
    const drum = drums[name];
    const microphone = made[name];
    if (side === null || microphone.dead) continue;
    const at = standsAt(microphone, blow.timeSeconds);
    addBlow(ears[name], drum, blow, { side, at }, SPEED);
    const path = distance(at, blow.place);
    for (const { extraCm, share } of microphone.detours) {
      const heard = echoOf(echoes, drum, blow, side === 'inside' ? 'resonant' : side, dullHz);
      ears[name].addShifted(heard, blow.timeSeconds + (path + extraCm / 100) / SPEED, share / path);
    }
    if (!microphone.room) continue;
    for (const image of mirrorImages(microphone.room, at)) {
      const behind: Side = dot(minus(image.at, drum.head), drum.axis) > 0 ? 'resonant' : 'batter';
      const heard = echoOf(echoes, drum, blow, behind, dullHz);
      const way = distance(image.at, blow.place);
      ears[name].addShifted(heard, blow.timeSeconds + way / SPEED, image.share / way);
    }
  }
}

function echoOf(kept: Echoes, drum: Drum, blow: Blow, side: Side, dullHz: number): Strip {
  kept[side] ??= makeEcho(drum, blow, side, dullHz);
  return kept[side];
}

function hearMetal(made: KitCase, ears: Ears, source: CaseSource, metal: Metal, random: Random): void {
  const bursts = Array.from({ length: 3 * NOISES }, () => {
    return new Burst(random, METAL_FILTERS, metal.riseSeconds, metal.decay60Seconds);
  });
  source.strikes.forEach((strike, i) => {
    const first = 3 * (i % NOISES);
    for (const [k, name] of (['a', 'b'] as const).entries()) {
      const microphone = made[name];
      if (source[name] === null || microphone.dead) continue;
      const path = distance(standsAt(microphone, strike.timeSeconds), strike.place);
      const at = strike.timeSeconds + path / SPEED;
      const gain = strike.force / path;
      bursts[first]?.addTo(ears[name], at, gain * Math.sqrt(metal.shared));
      bursts[first + 1 + k]?.addTo(ears[name], at, gain * Math.sqrt(1 - metal.shared));
    }
  });
}

/** s: how long what is struck pushes the air that rouses it */
const ROUSING_SECONDS = 1e-3;

function hearRing(made: KitCase, ears: Ears, source: CaseSource, { tones }: Ring): void {
  for (const name of ['a', 'b'] as const) {
    const microphone = made[name];
    const side = source[name];
    if (side === null || microphone.dead) continue;
    for (const { timeSeconds, force, place } of source.strikes) {
      const path = distance(standsAt(microphone, timeSeconds), place);
      const at = timeSeconds + path / SPEED;
      for (const tone of tones) {
        const gain = ((side === 'batter' ? -1 : 1) * force * tone.level) / path;
        const turn = name === 'a' ? tone.turnA : tone.turnB;
        addMode(ears[name], at, gain, tone.hz, tone.decay60Seconds, ROUSING_SECONDS, turn);
        addMode(ears[name], at, -gain, tone.hz, tone.rise60Seconds, ROUSING_SECONDS, turn);
      }
    }
  }
}

function recorded(made: KitCase, microphone: CaseMicrophone, ear: Strip, name: string): Float64Array {
  return recordEar(ear, microphone, made, new Random(made.seed, `tail ${name}`));
}
