/**
 * Real recordings through the whole chain: a fake device delivers them bit for bit (44.1 kHz, 16 bit) to getUserMedia,
 * and what the screen shows is compared with the recordings' own reference values.
 */
import { expect, test } from 'vitest';
import { openInterface } from '../../support/page/interface';
import { type Answer, answerWhen } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { REAL_ABSENT, realPath, realRecordings, realRecordingsHere } from '../../support/sound/realRecordings';

if (!realRecordingsHere) console.log(`Skipped: ${REAL_ABSENT}.`);

const CASES = [
  { file: 'snare-top-bottom.wav', kind: 'top-bottom' },
  { file: 'snare-top-overhead-left.wav', kind: 'close-overhead' },
  { file: 'kick-overheads.wav', kind: 'two-overheads' },
  { file: 'side-overhead-kick.wav', kind: 'two-overheads' },
];

test.for(CASES)('$file through the fake device: the screen agrees with the reference', async (one, { skip }) => {
  if (!realRecordingsHere) skip(REAL_ABSENT);
  const { file, kind } = one;
  const truth = realRecordings().find((item) => item.file === file);
  expect(truth?.sampleRate).toBe(44_100);
  await withPage({ captureWav: realPath(file) }, async ({ page }) => {
    await openInterface(page, kind);
    const judge = (answer: Answer): void => {
      if (answer.state !== 'measured') return;
      expect(answer.polarity).toBe(truth?.polarity);
      const off = Math.abs((answer.delaySamples as number) - (truth?.delaySamples as number));
      expect(off, `${answer.delaySamples} shown, ${truth?.delaySamples} is the reference`).toBeLessThanOrEqual(
        truth?.toleranceSamples as number,
      );
    };
    const measured = await answerWhen(page, 'a reading', (a) => a.state === 'measured', { look: judge });
    expect(measured.sampleRate).toBe(44_100);
    // and it stays right over the loop's seam
    await answerWhen(page, '24 hits', (a) => a.hits >= 24, { look: judge });
  });
});

test('crash-overheads.wav, for which no answer exists, is never measured', async ({ skip }) => {
  if (!realRecordingsHere) skip(REAL_ABSENT);
  await withPage({ captureWav: realPath('crash-overheads.wav') }, async ({ page }) => {
    await openInterface(page, 'two-overheads');
    const states: string[] = [];
    // two rounds of the file; a cymbal that rings on hides many of its hits
    const heard = (a: Answer): boolean => a.hits >= 2 && (a.readingSeconds ?? 0) >= 18;
    await answerWhen(page, 'two rounds', heard, { look: (a) => states.push(a.state) });
    expect(states).not.toContain('measured');
  });
});
