/** A real kit played through the worklet, one drum after the other: the reading of the pair is its own drum's, whatever is hit after it. */
import { expect, test } from 'vitest';
import { TAKES_ABSENT, takePairs, takesHere, takeTrack } from '../../bench/engine/takes';
import { savedKits } from '../../bench/faults/kept';
import { askForInput } from '../../support/page/interface';
import { type Answer, answerWhen, press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { captureWav, seeded } from '../../support/sound/signals';

/** share of full scale: between the hits the take is digitally silent, and no room is */
const NOISE = 3e-5;
/** the snare's hits lie between 10.8 and 19.1 s, the last hit of all at 59.7 s; the device begins anew at 62 s */
const SNARE_PLAYED_SECONDS = 20;
const END_SECONDS = 60;
/** Audio that a busy computer drops at the snare's loudest hits leaves it open whose microphone A is: a run that ends without an answer is repeated, one with a wrong answer never. */
const RUNS = 3;
const RUN_MS = 150_000;
/** a question is answered by nobody sooner */
const READ_MS = 1000;

test('the snare’s answer stays to the end of the take, and is what is accepted', { timeout: RUNS * RUN_MS }, async ({
  skip,
}) => {
  if (!takesHere) skip(TAKES_ABSENT);
  const pair = takePairs('kit-b-solo').find((one) => one.drum === 'snare' && one.b === '03 OH');
  if (!pair) throw new Error('no such pair');
  const random = seeded(9);
  const [a, b] = [pair.a, pair.b].map((track) =>
    takeTrack(pair.take, track).x.map((x) => x + NOISE * (2 * random() - 1)),
  ) as [Float32Array, Float32Array];
  const captured = captureWav('take', a, b);
  const isRight = ({ state, polarity, delaySamples }: Answer): boolean =>
    state === 'measured' &&
    polarity === pair.polarity &&
    Math.abs((delaySamples as number) - pair.delaySamples) <= pair.toleranceSamples;
  const seconds = ({ readingSeconds }: Answer): number => readingSeconds ?? 0;

  for (let runs = 1; ; runs++) {
    /** what was shown once the snare was played, other than its right answer */
    const declined = new Set<string>();
    const wrong = new Set<string>();
    let shown = 0;
    let answered = false;
    await withPage({ captureWav: captured }, async ({ page }) => {
      await press(page, 'open-sheet');
      await page.locator('[data-start="three"]').click();
      await press(page, 'begin-round');
      await askForInput(page);
      await press(page, 'skip');
      await answerWhen(page, 'the end of the take', (one) => seconds(one) >= END_SECONDS - 1, {
        timeoutMs: 130_000,
        look(one) {
          answered ||= isRight(one);
          if (seconds(one) < SNARE_PLAYED_SECONDS) return;
          shown++;
          if (!isRight(one)) (one.state === 'measured' ? wrong : declined).add(`${one.state} ${one.reason}`);
        },
      }).catch((error: Error) => declined.add(error.message));
      expect([...wrong]).toEqual([]);
      if (declined.size > 0 && runs < RUNS) return;
      expect(answered).toBe(true);
      expect([...declined]).toEqual([]);
      expect(shown).toBeGreaterThan(100);
      await page.locator('[data-flag="last-hit"]').waitFor();

      const asked = await page.locator('.round').getAttribute('data-pair');
      await press(page, 'accept');
      // several drums were heard, and nobody chose: were these the snare's?
      await page.locator('.round', { hasText: 'Were these hits the snare’s?' }).waitFor();
      await page.waitForTimeout(READ_MS);
      await press(page, 'accept');
      // what isn't done of the plan is asked about
      const leave = page.locator('[data-command="leave-accept"]:visible');
      await page.locator(`[data-command="leave-accept"]:visible, .round:not([data-pair="${asked}"])`).first().waitFor();
      if ((await leave.count()) > 0) await leave.first().click();
      await page.locator(`.round:not([data-pair="${asked}"])`).waitFor();
      const isAccepted = ({ acceptedAt }: { acceptedAt: string | null }): boolean => acceptedAt !== null;
      await expect
        .poll(async () => (await savedKits(page)).flatMap(({ pairs }) => pairs.filter(isAccepted)).length)
        .toBe(1);
      const [accepted] = (await savedKits(page)).flatMap(({ pairs }) => pairs.filter(isAccepted));
      expect(accepted?.before?.polarity).toBe(pair.polarity);
      const off = Math.abs((accepted?.before?.delayMs as number) * 44.1 - pair.delaySamples);
      expect(off).toBeLessThanOrEqual(pair.toleranceSamples);
    });
    if (declined.size === 0) return;
    console.log(`run ${runs}: ${[...declined].join(', ')}`);
  }
});
