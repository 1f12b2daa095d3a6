/** Whose hits are they, where a kit is played? */
import { describe, expect, it } from 'vitest';
import { type KitCase, type Strike, TUNING_SEEDS } from './case';
import { drawCase, groupOf } from './drawCase';
import { FLAM_SECONDS } from './groove/limbs';
import { Judge } from './judge';
import { truthOf } from './truth';

const grooves: KitCase[] = [];
for (let seed = TUNING_SEEDS.from; grooves.length < 100; seed++)
  if (groupOf(seed) === 'groove') grooves.push(drawCase(seed));

const strikesOf = (made: KitCase, id: string): Strike[] => made.sources.find((one) => one.id === id)?.strikes ?? [];
const nearest = (times: readonly number[], at: number): number => Math.min(...times.map((t) => Math.abs(t - at)));
const isGrace = (strikes: readonly Strike[], i: number): boolean =>
  (strikes[i + 1]?.timeSeconds ?? Number.POSITIVE_INFINITY) - (strikes[i] as Strike).timeSeconds <=
  FLAM_SECONDS.most + 1e-9;

describe('the judge', () => {
  it('takes hits in which drum and hi-hat are struck for the drum’s: the hat’s delay is wrong', () => {
    const made = grooves.find((one) => {
      const truths = truthOf(one);
      const asked = truths.find(({ id }) => id === one.asked);
      const hat = truths.find(({ id }) => id === 'hi-hat');
      return asked && hat && Math.abs(asked.delaySamples - hat.delaySamples) > 30;
    }) as KitCase;
    const asked = truthOf(made).find(({ id }) => id === made.asked);
    const hat = truthOf(made).find(({ id }) => id === 'hi-hat');
    if (!asked || !hat) throw new Error('no such groove');
    const hits = asked.hits.map(({ timeSeconds }) => timeSeconds);
    const judge = new Judge(made);
    const by = (truth: typeof asked, hitSeconds: number[]) =>
      judge.judge({ polarity: truth.polarity, delaySamples: truth.delaySamples, atSeconds: made.seconds, hitSeconds });
    expect(judge.asked).toBe(made.asked);
    expect(by(asked, hits)).toMatchObject({ right: true, drum: made.asked });
    expect(by(hat, hits)).toMatchObject({ right: false, drum: made.asked });
    // the hat by itself is the hat's
    const drums = truthOf(made).filter(({ metal }) => !metal);
    const alone = hat.hits
      .map(({ timeSeconds }) => timeSeconds)
      .filter((t) =>
        drums.every(
          (drum) =>
            nearest(
              drum.hits.map((h) => h.timeSeconds),
              t,
            ) > 0.02,
        ),
      );
    expect(alone.length).toBeGreaterThan(3);
    expect(by(hat, alone)).toMatchObject({ right: true, drum: 'hi-hat' });
  });

  it('takes a hit whose time is the grace stroke’s for the drum’s', () => {
    const made = grooves.find((one) => strikesOf(one, 'snare').some((_, i, all) => isGrace(all, i))) as KitCase;
    const snare = truthOf(made).find(({ id }) => id === 'snare');
    if (!snare) throw new Error('no snare');
    const graces = strikesOf(made, 'snare').flatMap((_, i, all) =>
      isGrace(all, i) ? [snare.hits[i]?.timeSeconds ?? 0] : [],
    );
    const { polarity, delaySamples } = snare;
    const answer = { polarity, delaySamples, atSeconds: made.seconds, hitSeconds: graces };
    expect(new Judge(made).judge(answer)).toMatchObject({ right: true, drum: 'snare' });
  });
});
