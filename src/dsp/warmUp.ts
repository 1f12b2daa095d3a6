/**
 * Plays made-up drums through an engine of its own, so that the compiler has seen and optimised everything before the
 * first block is heard. What runs once a hit would otherwise be interpreted for minutes, and an interpreter makes a small
 * object of every fraction: a collection on the audio thread every few seconds.
 */
import { Engine } from './engine';
import { KeepingUp } from './input/keepingUp';

const HITS = 40;
const HIT_SECONDS = 0.12;
const REHEARSALS = 400;
const PASSES = 2;
const SILENT_BLOCKS = 20;
const BLOCK_FRAMES = 128;
const BLOCKS_TIMED = 20_000;
/** every fourth hit is of another drum; B's gain */
const DRUMS = [
  { hz: 190, perSecond: 40, gain: 0.7 },
  { hz: 75, perSecond: 30, gain: 0.15 },
];
const DELAY_SECONDS = 0.0008;

let warm = false;

/** Once a thread; about 0.2 s. Real-time safe: no. */
export function warmUp(sampleRate: number, maxLagMs: number): void {
  if (warm) return;
  warm = true;
  const engine = new Engine(sampleRate, { maxLagMs });
  const frame = new Float64Array(engine.frameLength);
  const a = new Float32Array(BLOCK_FRAMES);
  const b = new Float32Array(BLOCK_FRAMES);
  const period = Math.round(HIT_SECONDS * sampleRate);
  const late = Math.round(DELAY_SECONDS * sampleRate);
  const strikes = DRUMS.map(({ hz, perSecond }) => strike(sampleRate, period, hz, perSecond));
  let seed = 1;
  const play = (): void => {
    for (let at = 0, block = 0; at < HITS * period; block++) {
      for (let i = 0; i < BLOCK_FRAMES; i++, at++) {
        const which = Math.floor(at / period) % 4 === 3 ? 1 : 0;
        const sound = strikes[which] as Float32Array;
        seed = (Math.imul(seed, 1664525) + 1013904223) | 0; // Numerical Recipes' quick generator, section 7.1
        const noise = seed / 2 ** 47;
        const n = at % period;
        a[i] = (sound[n] as number) + noise;
        b[i] = (DRUMS[which]?.gain ?? 1) * (sound[n - late] ?? 0) - noise;
      }
      engine.push(a, b);
      if (block % 8 === 0) engine.writeFrame(frame);
    }
    a.fill(0);
    b.fill(0);
    for (let i = 0; i < SILENT_BLOCKS; i++) engine.push(a, b);
  };
  // what happens at a start only, or after it, is learnt the second time: of a function's first calls nothing is remembered
  for (let pass = 0; pass < PASSES; pass++) {
    engine.restart();
    play();
    engine.rehearse(REHEARSALS);
    for (let i = 0; i < REHEARSALS; i++) engine.writeFrame(frame);
  }
  const keepingUp = new KeepingUp(sampleRate, { captured: true });
  for (let i = 0; i < BLOCKS_TIMED; i++)
    keepingUp.block(Math.floor((i * BLOCK_FRAMES * 1000) / sampleRate), i * BLOCK_FRAMES, BLOCK_FRAMES);
}

/** A tone that dies away, and a click at its beginning. */
function strike(sampleRate: number, frames: number, hz: number, perSecond: number): Float32Array {
  return Float32Array.from({ length: frames }, (_, i) => {
    const t = i / sampleRate;
    const click = Math.exp(-t * 900) * Math.sin(2 * Math.PI * 2300 * t);
    return 0.5 * Math.exp(-t * perSecond) * Math.sin(2 * Math.PI * hz * t) + 0.3 * click;
  });
}
