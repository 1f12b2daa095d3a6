import { expect, test } from 'vitest';
import { latencies } from './browserLatency';

/** Readings every 25 ms that reach the page 2 ms after their last sample; the stream began at 1000 ms of the clock. */
function tapOf(hitSeconds: number[], decidedAfter: number, sumAfter: number) {
  const readings = [];
  const answers = [];
  const sums = [];
  let spectrum = 0;
  for (let i = 1; i <= 160; i++) {
    const streamSeconds = i * 0.025;
    const atMs = 1000 + streamSeconds * 1000 + 2;
    const heard = hitSeconds.filter((time) => time <= streamSeconds);
    const hits = heard.map((time) => ({
      serial: hitSeconds.indexOf(time) + 1,
      timeSeconds: time,
      fate: streamSeconds - time >= decidedAfter ? 'used' : 'pending',
    }));
    const summed = heard.filter((time) => streamSeconds - time >= sumAfter).length;
    readings.push({ atMs, streamSeconds, hits: hits.slice(-4), spectrum: summed });
    answers.push({ atMs: atMs + 20, seconds: streamSeconds });
    if (summed !== spectrum) sums.push({ atMs: atMs + 20, seconds: streamSeconds });
    spectrum = summed;
  }
  return { readings, answers, sums };
}

test('latencies run from the hit in the stream to the frame that shows it', () => {
  const { hits, delayMs, sumMs } = latencies(tapOf([0.5, 1.5, 2.5, 3.5], 0.05, 0.1));
  expect(hits).toBe(3); // the last hit has no next one to bound its sum
  // 50 and 100 ms in the engine, 2 on the way, 20 to the frame, 1 allowed for the fastest message, less its 2 ms of way
  for (const ms of delayMs) expect(ms).toBeCloseTo(50 + 2 + 20 + 1 - 2, 6);
  for (const ms of sumMs) expect(ms).toBeCloseTo(100 + 2 + 20 + 1 - 2, 6);
  expect(sumMs).toHaveLength(3);
});

test('hits that came before the page stood aren’t counted', () => {
  expect(latencies(tapOf([0.5, 1.5, 2.5, 3.5], 0.05, 0.1), 2000).hits).toBe(2);
});
