/** From a scene to two channels of sound, and the truth about them. */
import { delaySeconds, speedOfSound } from '../../src/reading/acoustics';
import { butterworthLowPass, highPass2, lowPass1, lowPass2 } from './biquad';
import { addBlow, type Blow, makeBlow, type Side } from './drum';
import { Burst } from './excitation';
import { INNER_RATE, Loop, OVERSAMPLING, SAMPLE_RATE } from './loop';
import { microphoneFilters } from './microphone';
import { Random } from './random';
import { distance, dot, minus, mirrorImages, type Point } from './room';
import { type CymbalSource, type DrumSource, isDrum, type Scene, type SceneMicrophone } from './scene';
import { TEMPERATURE_C } from './scenes';

export interface Performance {
  /** blows per drum source, in order of time */
  blows: Map<string, Blow[]>;
  /** cymbal strokes per cymbal source */
  strokes: Map<string, { timeSeconds: number; burst: Burst }[]>;
}

export interface Rendered {
  a: Float64Array;
  b: Float64Array;
}

export interface RenderOptions {
  /** preamp noise, default true */
  noise: boolean;
  /** sources other than the struck one, default true */
  bleed: boolean;
  /** reflections and late sound, default true */
  room: boolean;
  /** unlike microphones; false: both flat (the anti-alias filter stays) */
  microphones: boolean;
}
const AS_RECORDED: RenderOptions = { noise: true, bleed: true, room: true, microphones: true };

/** Path difference B − A from the average place struck, cm; null where the pair, or this source, has no answer. */
export function truePathCm(scene: Scene, id = scene.struck): number | null {
  const struck = answeringDrum(scene, id);
  return struck && 100 * (distance(scene.b.at, struck.place) - distance(scene.a.at, struck.place));
}

export function trueDelaySamples(scene: Scene, id = scene.struck): number | null {
  const path = truePathCm(scene, id);
  return path === null ? null : delaySeconds(path, TEMPERATURE_C) * SAMPLE_RATE;
}

/** Opposite where the two are on opposite sides of the head that is struck. */
export function truePolarity(scene: Scene, id = scene.struck): 'same' | 'inverted' | null {
  const struck = answeringDrum(scene, id);
  if (!struck) return null;
  const [a, b] = [scene.a, scene.b].map((microphone) => sideOf(scene, microphone, struck));
  return (a === 'batter') === (b === 'batter') ? 'same' : 'inverted';
}

function answeringDrum(scene: Scene, id: string | null): DrumSource | null {
  if (id === null || (id !== scene.struck && !scene.alsoStruck?.includes(id))) return null;
  const found = scene.sources.find((source) => source.id === id);
  return found && isDrum(found) ? found : null;
}

/** A drum that the scene isn't about is heard from whichever side faces the microphone. */
function sideOf(scene: Scene, microphone: SceneMicrophone, source: DrumSource): Side {
  if (source.id === scene.struck) return microphone.side;
  return dot(minus(microphone.at, source.drum.head), source.drum.axis) > 0 ? 'resonant' : 'batter';
}

/** Who strikes what, when, where and how hard. */
export function perform(scene: Scene, seed: number): Performance {
  const blows = new Map<string, Blow[]>();
  const strokes = new Map<string, { timeSeconds: number; burst: Burst }[]>();
  for (const source of scene.sources) {
    const random = new Random(seed, `${scene.id}/${source.id}`);
    if (isDrum(source)) blows.set(source.id, playDrum(source, scene.seconds, random));
    else strokes.set(source.id, playCymbal(source, scene.seconds, random));
  }
  return { blows, strokes };
}

function playDrum(source: DrumSource, loopSeconds: number, random: Random): Blow[] {
  const spacing = loopSeconds / source.blows;
  const plan = Array.from({ length: source.blows }, (_, i) => ({
    timeSeconds: roundLoop((i + source.offset) * spacing + source.timingSeconds * within(random), loopSeconds),
    forceDb: source.levelDb + source.forceDb * within(random),
    u: source.scatterCm * within(random),
    v: source.scatterCm * within(random),
  }));
  // the average place is the one that the manifest speaks of
  const meanU = plan.reduce((sum, blow) => sum + blow.u, 0) / plan.length;
  const meanV = plan.reduce((sum, blow) => sum + blow.v, 0) / plan.length;
  const upright = Math.abs(source.drum.axis[2]) > 0.9;
  return plan.map((blow) => {
    const u = (blow.u - meanU) / 100;
    const v = (blow.v - meanV) / 100;
    const [x, y, z] = source.place;
    const place: Point = upright ? [x + u, y + v, z] : [x + u, y, z + v];
    return makeBlow(source.drum, blow.timeSeconds, 10 ** (blow.forceDb / 20), place, random);
  });
}

function playCymbal(
  source: CymbalSource,
  loopSeconds: number,
  random: Random,
): { timeSeconds: number; burst: Burst }[] {
  const filters = [highPass2(3000, 0.7, INNER_RATE), lowPass2(11000, 0.7, INNER_RATE)];
  return Array.from({ length: source.blows }, (_, i) => ({
    timeSeconds: roundLoop(((i + source.offset) * loopSeconds) / source.blows + 0.02 * within(random), loopSeconds),
    burst: new Burst(random, filters, 1e-3, 1.6),
  }));
}

/** A time before the beginning is one before the end. */
function roundLoop(seconds: number, loopSeconds: number): number {
  return (seconds + loopSeconds) % loopSeconds;
}

/** Normal, but never beyond two deviations: a player, not an accident. */
function within(random: Random): number {
  return Math.max(-2, Math.min(2, random.normal()));
}

/** Both channels at SAMPLE_RATE, a whole loop. */
export function render(scene: Scene, seed: number, options: Partial<RenderOptions> = {}): Rendered {
  const chosen = { ...AS_RECORDED, ...options };
  const performance = perform(scene, seed);
  return {
    a: hear(scene, scene.a, performance, new Random(seed, `${scene.id}/preamp-a`), chosen),
    b: hear(scene, scene.b, performance, new Random(seed, `${scene.id}/preamp-b`), chosen),
  };
}

function hear(
  scene: Scene,
  microphone: SceneMicrophone,
  performance: Performance,
  random: Random,
  options: RenderOptions,
): Float64Array {
  const length = Math.round(scene.seconds * SAMPLE_RATE) * OVERSAMPLING;
  const speed = speedOfSound(TEMPERATURE_C);
  const sound = new Loop(length);
  for (const source of scene.sources) {
    if (microphone.dead || !microphone.hears.includes(source.id)) continue;
    const answers = source.id === scene.struck || scene.alsoStruck?.includes(source.id);
    if (scene.struck !== null && !answers && !options.bleed) continue;
    if (isDrum(source)) {
      hearDrum(
        sound,
        source,
        sideOf(scene, microphone, source),
        performance.blows.get(source.id) ?? [],
        microphone,
        speed,
        options,
      );
    } else {
      const path = distance(microphone.at, source.cymbalAt);
      for (const stroke of performance.strokes.get(source.id) ?? []) {
        stroke.burst.addTo(sound, stroke.timeSeconds + path / speed, 10 ** (source.levelDb / 20) / path);
      }
    }
  }
  if (options.room && microphone.room) addTail(sound, microphone.room, random);
  if (options.microphones) sound.filter(microphoneFilters(microphone.response));
  sound.filter(butterworthLowPass(19000, 8, INNER_RATE));

  const out = Float64Array.from({ length: length / OVERSAMPLING }, (_, i) => sound.samples[i * OVERSAMPLING]);
  const highest = out.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const gain = highest > 0 ? 10 ** (microphone.peakDbfs / 20) / highest : 0;
  const noise = options.noise ? 10 ** (microphone.noiseDbfs / 20) : 0;
  for (let i = 0; i < out.length; i++) out[i] = gain * out[i] + noise * random.normal();
  return out;
}

/** The direct sound of a drum, its detours close by, and what floor, ceiling and walls send back. */
function hearDrum(
  sound: Loop,
  source: DrumSource,
  side: Side,
  blows: readonly Blow[],
  microphone: SceneMicrophone,
  speed: number,
  options: RenderOptions,
): void {
  const length = sound.samples.length;
  const direct = new Loop(length);
  for (const blow of blows) addBlow(direct, source.drum, blow, { side, at: microphone.at }, speed);
  sound.addDelayed(direct, 0, 1);
  if (!options.room) return;
  if (microphone.detours.length > 0) {
    const dull = direct.copy();
    dull.filter([lowPass1(5000, INNER_RATE)]);
    for (const { extraCm, share } of microphone.detours) sound.addDelayed(dull, extraCm / 100 / speed, share);
  }
  if (!microphone.room) return;
  const { room } = microphone;
  const sides: Partial<Record<Side, Loop>> = {};
  for (const image of mirrorImages(room, microphone.at)) {
    const behind: Side = dot(minus(image.at, source.drum.head), source.drum.axis) > 0 ? 'resonant' : 'batter';
    let heard = sides[behind];
    if (!heard) {
      heard = new Loop(length);
      for (const blow of blows) addBlow(heard, source.drum, blow, { side: behind, at: null }, speed);
      heard.filter([lowPass1(room.dullHz, INNER_RATE)]);
      sides[behind] = heard;
    }
    const path = distance(image.at, source.place);
    sound.addDelayed(heard, path / speed, image.share / path);
  }
}

/** Late sound: sparse echoes of random time and sign that thin out; different at each microphone. */
function addTail(sound: Loop, room: { tailDb: number; tail60Seconds: number; dullHz: number }, random: Random): void {
  const source = sound.copy();
  source.filter([lowPass1(room.dullHz, INNER_RATE)]);
  const alpha = Math.log(1000) / room.tail60Seconds;
  const gain = 10 ** (room.tailDb / 20);
  const echoes = 60;
  const span = room.tail60Seconds * 0.6;
  for (let i = 0; i < echoes; i++) {
    const t = 0.012 + (span * (i + random.uniform())) / echoes;
    sound.addDelayed(source, t, gain * Math.exp(-alpha * t) * (random.uniform() < 0.5 ? -1 : 1));
  }
}
