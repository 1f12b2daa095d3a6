/** What the bench and its lessons say, against the curve and the figures beside it. */
import { describe, expect, it } from 'vitest';
import { sumDbAt } from '../../src/teaching/bench/comb';
import { freshBench, invert, moveMic, setBody, setKind, setLevels, setPhantom } from '../../src/teaching/bench/edits';
import { figuresOf, firstNotchHz } from '../../src/teaching/bench/figures';
import type { Bench } from '../../src/teaching/bench/model';
import { LESSONS } from '../../src/teaching/lessons/lessons';
import { combWords } from '../../src/teaching/words/benchWords';
import { LESSON_WORDS } from '../../src/teaching/words/lessonWords';
import { gainText } from '../../src/text/level';

const asSpeaker = (bench: Bench): Bench => setKind(setPhantom(bench, 'b', false), 'b', 'speaker');
const { start } = LESSONS['inside-outside-speaker'];

describe('a speaker as a mic', () => {
  it('adds up below 50 Hz and cancels more round 150 Hz once the pushes are the same, wherever B stands', () => {
    const seen = LESSON_WORDS['inside-outside-speaker'].steps.invert?.seen;
    expect(seen).toMatch(/^Below 50 Hz they add up now; round 150 Hz, .* they cancel more\./);
    let places = 0;
    for (let xCm = 20; xCm <= 100; xCm += 4) {
      for (let yCm = -24; yCm <= 24; yCm += 8) {
        const against = asSpeaker(moveMic(start, 'b', { xCm, yCm }));
        const same = invert(against, 'b');
        const { pathCm, polarity } = figuresOf(same);
        if (pathCm < 0) continue;
        places++;
        expect(polarity).toBe('same');
        for (const hz of [30, 40, 50]) {
          expect(sumDbAt(same, hz), `${xCm}, ${yCm}: ${hz} Hz`).toBeGreaterThan(3);
          expect(sumDbAt(same, hz)).toBeGreaterThan(sumDbAt(against, hz));
        }
        for (const hz of [140, 150, 160])
          expect(sumDbAt(same, hz), `${xCm}, ${yCm}: ${hz} Hz`).toBeLessThan(sumDbAt(against, hz));
        expect(sumDbAt(same, 150)).toBeLessThan(0);
      }
    }
    expect(places).toBeGreaterThan(50);
  });

  it('has its curve told as it is, whatever the switch and the level', () => {
    const bench = asSpeaker(start);
    const said = [bench, invert(bench, 'b'), setLevels(bench, 'distance')].map((one) => {
      const words = combWords(one, figuresOf(one));
      for (const hz of [40, 80, 120, 160, 300]) expect(words).toContain(`${gainText(sumDbAt(one, hz))} at ${hz} Hz`);
      expect(words).toContain(`${gainText(sumDbAt(one, 2000))} at 2 kHz`);
      return words;
    });
    expect(new Set(said).size).toBe(3);
    expect(said[1]).toContain('−10 dB at 120 Hz');
  });
});

it('4 cm hidden in the body put the first notch at 4.3 kHz', () => {
  expect(LESSON_WORDS['hidden-capsule'].learned).toContain('4 cm hidden in the body put the first notch at 4.3 kHz');
  const bench = freshBench('snare', [-12, 20, { bodyCm: 0 }], [12, 20, { bodyCm: 0 }]);
  expect((firstNotchHz(figuresOf(setBody(bench, 'b', 4))) ?? 0) / 1000).toBeCloseTo(4.3, 1);
});

it('overheads that are even to 1 cm have their first notch at 17 kHz or above', () => {
  expect(LESSON_WORDS['two-overheads'].steps.even?.seen).toContain('first notch lies at 17 kHz or above');
  const bench = freshBench('kit', [-28, 162], [-28, 163]);
  expect(figuresOf(bench).pathCm).toBeCloseTo(1, 9);
  expect(firstNotchHz(figuresOf(bench))).toBeGreaterThan(17000);
});

it('polarity is not delay begins 16.2 cm and 0.47 ms apart, first notch near 1 kHz', () => {
  const figures = figuresOf(LESSONS['polarity-not-delay'].start);
  expect([figures.pathCm.toFixed(1), figures.delayMs.toFixed(2)]).toEqual(['16.2', '0.47']);
  expect(firstNotchHz(figures)).toBeCloseTo(1059, 0);
});
