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

test('the snare’s answer stays to the end of the take, and is what is accepted', async ({ skip }) => {
  if (!takesHere) skip(TAKES_ABSENT);
  const pair = takePairs('kit-b-solo').find((one) => one.drum === 'snare' && one.b === '03 OH');
  if (!pair) throw new Error('no such pair');
  const random = seeded(9);
  const [a, b] = [pair.a, pair.b].map((track) =>
    takeTrack(pair.take, track).x.map((x) => x + NOISE * (2 * random() - 1)),
  ) as [Float32Array, Float32Array];
  await withPage({ captureWav: captureWav('take', a, b) }, async ({ page }) => {
    await press(page, 'open-sheet');
    await page.locator('[data-start="three"]').click();
    await press(page, 'begin-round');
    await askForInput(page);
    await press(page, 'skip');
    const isRight = (answer: Answer): boolean =>
      answer.polarity === pair.polarity &&
      Math.abs((answer.delaySamples as number) - pair.delaySamples) <= pair.toleranceSamples;
    const seconds = (answer: Answer): number => answer.readingSeconds ?? 0;
    await answerWhen(page, 'the snare', (one) => one.state === 'measured' && isRight(one), { timeoutMs: 40_000 });
    const seen: string[] = [];
    const last = await answerWhen(page, 'the end of the take', (one) => seconds(one) >= END_SECONDS - 1, {
      timeoutMs: 70_000,
      look(one) {
        if (seconds(one) < SNARE_PLAYED_SECONDS) return;
        seen.push(
          one.state === 'measured' && isRight(one) ? 'right' : `${one.state} ${one.delaySamples} ${one.polarity}`,
        );
      },
    });
    expect([...new Set(seen)]).toEqual(['right']);
    expect(seen.length).toBeGreaterThan(100);
    expect(isRight(last)).toBe(true);
    await page.locator('[data-flag="last-hit"]').waitFor();

    const asked = await page.locator('.round').getAttribute('data-pair');
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
});
