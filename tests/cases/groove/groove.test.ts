/** Grooves as they are played: what each ingredient is, over many seeds. */
import { describe, expect, it, vi } from 'vitest';
import { type CaseSource, type KitCase, type Strike, TUNING_SEEDS } from '../case';
import { drawCase, groupOf } from '../drawCase';
import { renderCase } from '../renderCase';
import { LEAD_SECONDS } from '../strikes';
import { truthOf } from '../truth';
import { TOGETHER_SECONDS } from './cymbals';
import { FLAM_SECONDS } from './limbs';
import { BAR, drawPattern, GHOST_DB, type Pattern } from './pattern';

vi.setConfig({ testTimeout: 60_000 });

interface Drawn {
  made: KitCase;
  pattern: Pattern;
}

const grooves: Drawn[] = [];
for (let seed = TUNING_SEEDS.from; grooves.length < 200; seed++)
  if (groupOf(seed) === 'groove') grooves.push({ made: drawCase(seed), pattern: drawPattern(seed) });

const sourceOf = (made: KitCase, id: string): CaseSource | undefined => made.sources.find((one) => one.id === id);
const strikesOf = (made: KitCase, id: string): Strike[] => sourceOf(made, id)?.strikes ?? [];
const db = (ratio: number): number => 20 * Math.log10(ratio);
const medianOf = (list: readonly number[]): number =>
  [...list].sort((p, q) => p - q)[Math.floor(list.length / 2)] as number;
const nearest = (times: readonly number[], at: number): number => Math.min(...times.map((t) => Math.abs(t - at)));

/** A grace stroke is one that another of the drum follows so soon. */
function isGrace(strikes: readonly Strike[], i: number): boolean {
  const next = strikes[i + 1];
  return next !== undefined && next.timeSeconds - (strikes[i] as Strike).timeSeconds <= FLAM_SECONDS.most + 1e-9;
}
const withoutGrace = (strikes: readonly Strike[]): Strike[] => strikes.filter((_, i) => !isGrace(strikes, i));

/** The snare's strokes and what each was meant as. */
function snareNotes({ made, pattern }: Drawn): { strike: Strike; kind: string; step: number }[] {
  const notes = pattern.notes.filter(({ drum }) => drum === 'snare');
  const main = withoutGrace(strikesOf(made, 'snare'));
  expect(main.length).toBe(notes.length);
  return notes.map(({ kind, step }, i) => ({ strike: main[i] as Strike, kind, step }));
}

describe('grooves', () => {
  it('are the same for the same seed, in what is played and in sound', () => {
    const { made } = grooves[1] as Drawn;
    expect(drawCase(made.seed)).toEqual(made);
    const [p, q] = [renderCase(made), renderCase(drawCase(made.seed))];
    expect(Buffer.compare(Buffer.from(p.b.buffer), Buffer.from(q.b.buffer))).toBe(0);
  });

  it('stand evenly for two overheads, close and overhead, top and bottom, close and room', () => {
    const counts = new Map<string, number>();
    for (const { made } of grooves) counts.set(made.kind, (counts.get(made.kind) ?? 0) + 1);
    expect([...counts.keys()].sort()).toEqual(['close-overhead', 'close-room', 'top-bottom', 'two-overheads']);
    for (const count of counts.values()) expect(count).toBeGreaterThan(30);
  });

  it('range from plain to busy', () => {
    const share = (of: (one: Drawn) => boolean): number => grooves.filter(of).length / grooves.length;
    const has =
      (part: string) =>
      ({ made }: Drawn) =>
        made.sources.some(({ id }) => id.includes(part));
    const played =
      (kind: string) =>
      ({ pattern }: Drawn) =>
        pattern.notes.some((note) => note.kind === kind);
    const within = (value: number, low: number, high: number): void => {
      expect(value).toBeGreaterThan(low);
      expect(value).toBeLessThan(high);
    };
    within(
      share(({ pattern }) => pattern.plain),
      0.05,
      0.2,
    );
    within(share(has('hi-hat')), 0.7, 0.95);
    within(share(has('ride')), 0.05, 0.25);
    within(share(has('crash')), 0.25, 0.55);
    within(share(has('ringing along')), 0.6, 0.9);
    within(share(played('ghost')), 0.35, 0.65);
    within(share(played('fill')), 0.2, 0.5);
    within(
      share(({ made }) => strikesOf(made, 'snare').some((_, i, all) => isGrace(all, i))),
      0.08,
      0.3,
    );
    within(
      share(({ pattern }) => together(pattern) > 0),
      0.15,
      0.6,
    );
  });

  it('that are plain have nothing but kick, snare and floor tom', () => {
    for (const { made, pattern } of grooves.filter((one) => one.pattern.plain)) {
      expect(pattern.notes.every(({ kind }) => kind === 'main')).toBe(true);
      for (const { id } of made.sources) expect(['kick', 'snare', 'floor tom']).toContain(id);
    }
  });
});

/** Backbeats that the kick plays as well. */
const together = ({ notes }: Pattern): number => {
  const kicks = new Set(notes.filter(({ drum }) => drum === 'kick').map(({ step }) => step));
  return notes.filter(({ drum, kind, step }) => drum === 'snare' && kind === 'main' && kicks.has(step)).length;
};

describe('the hi-hat', () => {
  it('comes within ±10 ms of the drum’s stroke where it is played with one, by a habit of the player’s', () => {
    let met = 0;
    const habits: number[] = [];
    for (const { made, pattern } of grooves) {
      const hats = strikesOf(made, 'hi-hat').map(({ timeSeconds }) => timeSeconds);
      if (hats.length === 0) continue;
      const main = withoutGrace(strikesOf(made, made.asked)).map(({ timeSeconds }) => timeSeconds);
      const offs = main.flatMap((t) => {
        const off = hats.reduce((best, hat) => (Math.abs(hat - t) < Math.abs(best) ? hat - t : best), 1);
        // half a sixteenth off it belongs to another step
        return Math.abs(off) < 0.5 * pattern.sixteenthSeconds ? [off] : [];
      });
      met += offs.length;
      for (const off of offs) expect(Math.abs(off)).toBeLessThanOrEqual(TOGETHER_SECONDS + 1e-9);
      if (offs.length >= 6) {
        habits.push(medianOf(offs));
        const spread = Math.max(...offs) - Math.min(...offs);
        expect(spread).toBeLessThan(0.0125);
        expect(spread).toBeGreaterThan(1e-4);
      }
    }
    expect(met).toBeGreaterThan(1000);
    // before it with some, after it with others
    expect(habits.filter((habit) => habit < -0.003).length).toBeGreaterThan(0.15 * habits.length);
    expect(habits.filter((habit) => habit > 0.003).length).toBeGreaterThan(0.15 * habits.length);
  });

  it('is played with nearly every backbeat and first beat, and is softer between the accents', () => {
    let accents = 0;
    let others = 0;
    for (const { made, pattern } of grooves) {
      const hats = strikesOf(made, 'hi-hat');
      const of = (strike: Strike): number => Math.round((strike.timeSeconds - LEAD_SECONDS) / pattern.sixteenthSeconds);
      const onBeat = hats.filter((hat) => of(hat) % 4 === 0);
      const off = hats.filter((hat) => of(hat) % 4 !== 0);
      if (onBeat.length === 0 || off.length === 0) continue;
      const accentDb = db(medianOf(onBeat.map((h) => h.force)) / medianOf(off.map((h) => h.force)));
      expect(accentDb).toBeGreaterThan(-0.5);
      expect(accentDb).toBeLessThan(8);
      accents++;
      const steps = new Set(hats.map(of));
      const backbeats = pattern.notes.filter(
        ({ drum, kind, step }) => drum === 'snare' && kind === 'main' && step % 8 === 4,
      );
      others += backbeats.every(({ step }) => steps.has(step)) ? 1 : 0;
    }
    expect(accents).toBeGreaterThan(100);
    expect(others).toBeGreaterThan(0.95 * accents);
  });
});

describe('the drums', () => {
  it('ghost notes are 12–25 dB softer than the main strokes, and the drum’s own hits', () => {
    let ghosts = 0;
    for (const drawn of grooves) {
      const notes = snareNotes(drawn);
      // ±20 % each: the main strokes' middle is meant within 1 dB
      const main = medianOf(notes.filter(({ kind }) => kind === 'main').map(({ strike }) => strike.force));
      const snare = truthOf(drawn.made).find(({ id }) => id === 'snare');
      for (const { strike, kind } of notes) {
        if (kind !== 'ghost') continue;
        ghosts++;
        expect(db(strike.force / main)).toBeGreaterThan(GHOST_DB.least - 1.2);
        expect(db(strike.force / main)).toBeLessThan(GHOST_DB.most + 1.2);
        expect(nearest(snare?.hits.map(({ timeSeconds }) => timeSeconds) ?? [], strike.timeSeconds)).toBeLessThan(
          0.025,
        );
      }
    }
    expect(ghosts).toBeGreaterThan(500);
  });

  it('a grace stroke lies 15–40 ms before a main one, and is softer; no other strokes of a drum lie so near', () => {
    let flams = 0;
    for (const { made, pattern } of grooves)
      for (const { id, drum, strikes } of made.sources) {
        if (!drum) continue;
        for (const [i, strike] of strikes.entries()) {
          const next = strikes[i + 1];
          if (!next) continue;
          const gap = next.timeSeconds - strike.timeSeconds;
          if (!isGrace(strikes, i)) {
            expect(gap).toBeGreaterThan(0.55 * pattern.sixteenthSeconds);
            continue;
          }
          flams++;
          expect(id).toBe('snare');
          expect(gap).toBeGreaterThanOrEqual(FLAM_SECONDS.least - 1e-9);
          expect(db(strike.force / next.force)).toBeLessThan(-1.8);
          // the hand that plays it has had no stroke right before
          const before = strikes[i - 1];
          if (before) expect(strike.timeSeconds - before.timeSeconds).toBeGreaterThan(pattern.sixteenthSeconds);
        }
      }
    expect(flams).toBeGreaterThan(40);
  });

  it('are early or late by 20 % of a sixteenth at most, and by more than nothing', () => {
    for (const { made, pattern } of grooves) {
      const off = ({ timeSeconds }: Strike): number => {
        const steps = (timeSeconds - LEAD_SECONDS) / pattern.sixteenthSeconds;
        return steps - Math.round(steps);
      };
      for (const { drum, strikes } of made.sources) {
        if (!drum) continue;
        const offs = withoutGrace(strikes).map(off);
        for (const one of offs) expect(Math.abs(one)).toBeLessThanOrEqual(0.2);
        if (offs.length > 3) expect(Math.max(...offs) - Math.min(...offs)).toBeGreaterThan(0.005);
      }
    }
  });

  it('main strokes lie within ±20 % of one force', () => {
    for (const drawn of grooves) {
      const main = snareNotes(drawn).filter(({ kind }) => kind === 'main');
      const forces = main.map(({ strike }) => strike.force);
      expect(Math.max(...forces) / Math.min(...forces)).toBeLessThan(1.2 / (1 / 1.2) + 1e-6);
    }
  });

  it('fills go over the toms at the end of a bar, without a hi-hat, and none is cut short', () => {
    for (const { made, pattern } of grooves) {
      for (const end of pattern.fillEnds) expect(end % BAR).toBe(0);
      const hats = [...strikesOf(made, 'hi-hat'), ...strikesOf(made, 'ride')];
      const foot = sourceOf(made, 'ride') !== undefined;
      for (const step of pattern.fillSteps) {
        const at = LEAD_SECONDS + step * pattern.sixteenthSeconds;
        const near = hats.filter(({ timeSeconds }) => Math.abs(timeSeconds - at) < 0.3 * pattern.sixteenthSeconds);
        if (!foot) expect(near).toEqual([]);
      }
      expect(Math.max(...made.sources.flatMap(({ strikes }) => strikes.map((s) => s.timeSeconds)))).toBeLessThan(
        made.seconds - 0.5,
      );
    }
  });
});

describe('toms that ring along', () => {
  const { made } = grooves.find((one) => sourceOf(one.made, 'floor tom ringing along')) as Drawn;

  it('follow each stroke of kick and snare, and have no truth of their own', () => {
    const ring = strikesOf(made, 'floor tom ringing along');
    expect(ring.length).toBe(strikesOf(made, 'kick').length + strikesOf(made, 'snare').length);
    const rousing = ['kick', 'snare'].flatMap((id) => strikesOf(made, id).map(({ timeSeconds }) => timeSeconds));
    for (const { timeSeconds } of ring)
      expect(Math.min(...rousing.map((t) => (t < timeSeconds ? timeSeconds - t : 1)))).toBeLessThan(0.006);
    expect(truthOf(made).map(({ id }) => id)).not.toContain('floor tom ringing along');
  });

  it('swell from nothing, and are softer than the drum that rouses them', () => {
    const clean = { noiseDb: Number.NEGATIVE_INFINITY, humDb: Number.NEGATIVE_INFINITY, dc: 0, bits: 24 as const };
    const only = (wanted: (source: CaseSource) => boolean): Float32Array => {
      const sources = made.sources
        .filter(wanted)
        .map((source) => ({ ...source, strikes: source.strikes.filter(({ timeSeconds }) => timeSeconds < 1.3) }));
      const a = { ...made.a, ...clean, room: null, detours: [] };
      return renderCase({ ...made, seconds: 1.5, sources, a, b: a, wiredInverted: false }).a;
    };
    const peakOf = (x: Float32Array): number => x.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
    const ring = only(({ id }) => id === 'floor tom ringing along');
    const begin = ring.findIndex((v) => v !== 0);
    const swelling = ring.subarray(begin, begin + Math.round(0.1 * made.sampleRate));
    const half = swelling.findIndex((v) => Math.abs(v) > 0.5 * peakOf(swelling));
    expect(half / made.sampleRate).toBeGreaterThan(0.003);
    // brought to one peak, the rest differs by what rings along
    const rousing = only(({ id }) => id === 'kick' || id === 'snare');
    const all = only(({ id, ring: along }) => id === 'kick' || id === 'snare' || along !== null);
    const rest = peakOf(all.map((v, i) => v - (rousing[i] as number))) / peakOf(all);
    expect(rest).toBeGreaterThan(1e-4);
    expect(rest).toBeLessThan(0.3);
  });
});
