/** A computer that can't keep up, in a real browser: said, no reading accepted meanwhile, and over by itself. */
import { expect, test } from 'vitest';
import { openInterface } from '../../support/page/interface';
import { answerWhen, press, problemSentence, type readAnswer } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { CAPTURE_RATE, captureWav } from '../../support/sound/signals';
import { struckPair } from '../../support/sound/struckPair';

const SLOW_FROM_SECONDS = 6;
const SLOW_TO_SECONDS = 14;

/** The audio thread takes 6–12 ms for each block, for a while. */
const SLOW = `
  const addModule = AudioWorklet.prototype.addModule;
  AudioWorklet.prototype.addModule = async function (url) {
    const text = \`
      const register = globalThis.registerProcessor;
      let fromMs = 0;
      let blocks = 0;
      globalThis.registerProcessor = (name, Meter) => register(name, class extends Meter {
        process(...given) {
          const nowMs = Date.now();
          if (fromMs === 0) fromMs = nowMs;
          const seconds = (nowMs - fromMs) / 1000;
          if (seconds > ${SLOW_FROM_SECONDS} && seconds < ${SLOW_TO_SECONDS}) {
            const ms = 6 + (blocks++ * 5) % 7;
            while (Date.now() < nowMs + ms);
          }
          return super.process(...given);
        }
      });
    \`;
    await addModule.call(this, URL.createObjectURL(new Blob([text], { type: 'text/javascript' })));
    return addModule.call(this, url);
  };
`;

function pairWav(): string {
  const { a, b } = struckPair({ sampleRate: CAPTURE_RATE, hits: 20, delaySamples: 9, polarity: 'inverted' });
  return captureWav('keep-up', a, b);
}

const DROPPED = /^The computer drops audio: close other programs; the meter carries on by itself once it keeps up\.$/;

test('an interface: never the delay of dropped blocks, the old reading meanwhile, and it goes on by itself', async () => {
  await withPage({ captureWav: pairWav(), initScript: SLOW, anyProgram: true }, async ({ page }) => {
    await openInterface(page, 'two-overheads');
    const isRight = ({ state, polarity, delaySamples }: NonNullable<Awaited<ReturnType<typeof readAnswer>>>): boolean =>
      state !== 'measured' || (polarity === 'inverted' && Math.abs((delaySamples ?? 0) - 9) < 1);
    const wrong: unknown[] = [];
    const look = (answer: NonNullable<Awaited<ReturnType<typeof readAnswer>>>): void => {
      if (!isRight(answer)) wrong.push(answer);
    };
    await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hitsUsed >= 4, { look });
    await answerWhen(page, 'the wait', (a) => a.run === 'waiting' && a.problem === 'dropped-audio', { look });
    expect(await problemSentence(page, 'dropped-audio')).toMatch(DROPPED);
    expect((await page.locator('#answer [data-flag="old"]').textContent())?.trim()).toMatch(
      /: audio is dropped since$/,
    );
    const before = await answerWhen(page, 'going on', (a) => a.run === 'running' && a.problem === null, { look });
    await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hits > before.hits + 4, { look });
    expect(wrong).toEqual([]);
  });
});

test('an example: the same sentence, and it plays on', async () => {
  await withPage({ initScript: SLOW, anyProgram: true }, async ({ page }) => {
    await press(page, 'play-demo');
    await answerWhen(page, 'hits', (a) => a.hits >= 2);
    await problemSentence(page, 'dropped-audio');
    const before = await answerWhen(page, 'going on', (a) => a.run === 'running' && a.problem === null);
    await answerWhen(page, 'more hits', (a) => a.hits > before.hits && a.state === 'measured');
  });
});
