/**
 * Plays made-up drums through an engine of its own, so that the compiler has seen and optimised everything before the
 * first block is heard. What runs once a hit would otherwise be interpreted for minutes, and an interpreter makes a small
 * object of every fraction: a collection on the audio thread every few seconds.
 */
import { Engine } from './engine';
import { KeepingUp } from './input/keepingUp';

const HIT_SECONDS = 0.12;
const REHEARSALS = 60;
const SILENT_BLOCKS = 20;
const BLOCK_FRAMES = 128;
const BLOCKS_TIMED = 120_000;
/** every fourth hit is of another drum; B's gain */
const DRUMS = [
  { hz: 190, perSecond: 40, gain: 0.7 },
  { hz: 75, perSecond: 30, gain: 0.15 },
];
/** a cymbal before the stroke, where there is one, s */
const CYMBAL_SECONDS = 0.006;

/** What may come: whatever the compiler hasn't seen it has to learn when it does. */
interface WarmScene {
  hits: number;
  delaySeconds: number;
  /** by which each hit's delay is longer than the one's before; and from the middle on */
  driftSeconds?: number;
  jumpSeconds?: number;
  gainA?: number;
  gainB?: number;
  noise?: number;
  cymbal?: number;
  /** audio is lost after every fifth hit */
  loses?: boolean;
}

const SCENES: readonly WarmScene[] = [
  { hits: 40, delaySeconds: 0.0008 },
  { hits: 8, delaySeconds: 0.0008, noise: 0.02 },
  { hits: 8, delaySeconds: 0.0012, gainB: -1, noise: 0.0005, loses: true },
  { hits: 8, delaySeconds: 0.0004, driftSeconds: 0.00006 },
  { hits: 8, delaySeconds: 0.0004, jumpSeconds: 0.0005 },
  { hits: 8, delaySeconds: 0.0008, cymbal: 0.1 },
  { hits: 8, delaySeconds: 0.0008, gainA: 4 },
  { hits: 8, delaySeconds: 0.0008, gainB: 0 },
  { hits: 16, delaySeconds: 0.0008 },
];

let warm = false;

/** Once a thread; about half a second. Real-time safe: no. */
export function warmUp(sampleRate: number, maxLagMs: number): void {
  if (warm) return;
  warm = true;
  const engine = new Engine(sampleRate, { maxLagMs });
  const frame = new Float64Array(engine.frameLength);
  const a = new Float32Array(BLOCK_FRAMES);
  const b = new Float32Array(BLOCK_FRAMES);
  const period = Math.round(HIT_SECONDS * sampleRate);
  const early = Math.round(CYMBAL_SECONDS * sampleRate);
  const strikes = DRUMS.map(({ hz, perSecond }) => strike(sampleRate, period, hz, perSecond));
  let seed = 1;
  const random = (): number => {
    seed = (Math.imul(seed, 1664525) + 1013904223) | 0; // Numerical Recipes' quick generator, section 7.1
    return seed / 2 ** 31;
  };
  const play = (scene: WarmScene): void => {
    const {
      hits,
      delaySeconds,
      driftSeconds = 0,
      jumpSeconds = 0,
      gainA = 1,
      gainB = 1,
      noise = 1e-5,
      cymbal = 0,
    } = scene;
    for (let at = 0, block = 0; at < hits * period; block++) {
      for (let i = 0; i < BLOCK_FRAMES; i++, at++) {
        const hit = Math.floor(at / period);
        const which = hit % 4 === 3 ? 1 : 0;
        const sound = strikes[which] as Float32Array;
        const later = delaySeconds + hit * driftSeconds + (2 * hit >= hits ? jumpSeconds : 0);
        const n = (at % period) - early;
        const metal = cymbal * random() * Math.exp(-(n + early) / (0.03 * sampleRate));
        const far = n - Math.round(later * sampleRate);
        a[i] = clipped(gainA * ((sound[n] ?? 0) + 0.1 * metal) + noise * random());
        b[i] = clipped(gainB * ((DRUMS[which]?.gain ?? 1) * (sound[far] ?? 0) + metal) + noise * random());
      }
      engine.push(a, b);
      if (scene.loses && block % Math.round((5 * period) / BLOCK_FRAMES) === 7) engine.lost(BLOCK_FRAMES);
      if (block % 8 === 0) engine.writeFrame(frame);
    }
    a.fill(0);
    b.fill(0);
    for (let i = 0; i < SILENT_BLOCKS; i++) engine.push(a, b);
  };
  // what happens at a start only, or after it, is learnt the second time: of a function's first calls nothing is remembered
  for (const scene of [...SCENES, ...SCENES.slice(0, 3)]) {
    engine.restart();
    play(scene);
    engine.rehearse(REHEARSALS);
    for (let i = 0; i < REHEARSALS; i++) engine.writeFrame(frame);
  }
  const keepingUp = new KeepingUp(sampleRate, { captured: true });
  for (let i = 0; i < BLOCKS_TIMED; i++) {
    // a block is lost now and then, and a bunch of them is late
    const lost = Math.floor(i / 4000);
    const late = i % 1000 < 40 ? 20 : 0;
    keepingUp.nowMs[0] = Math.floor(((i + lost) * BLOCK_FRAMES * 1000) / sampleRate) + late;
    keepingUp.block(i * BLOCK_FRAMES, BLOCK_FRAMES);
  }
}

const clipped = (x: number): number => Math.max(-1, Math.min(1, x));

/** A tone that dies away, and a click at its beginning. */
function strike(sampleRate: number, frames: number, hz: number, perSecond: number): Float32Array {
  return Float32Array.from({ length: frames }, (_, i) => {
    const t = i / sampleRate;
    const click = Math.exp(-t * 900) * Math.sin(2 * Math.PI * 2300 * t);
    return 0.5 * Math.exp(-t * perSecond) * Math.sin(2 * Math.PI * hz * t) + 0.3 * click;
  });
}
