import { describe, expect, it } from 'vitest';
import { FATE, METHOD, REASON, STATE } from '../../src/reading/codes';
import { AT, FRAME_VERSION, frameLength, readingFromFrame, SLOT } from '../../src/reading/frame';
import { answerOf, type Reading } from '../../src/reading/reading';

const { head, drum, hit } = SLOT;

/** A frame with nothing in it, in which what the test names is filled in. */
function frame(
  heads: Partial<Record<keyof typeof head, number>>,
  drums: Partial<Record<keyof typeof drum, number>>[] = [],
) {
  const out = new Float64Array(frameLength(3)).fill(Number.NaN);
  const counts = { hits: 0, hitsNeeded: 4, hitCount: 0, drumCount: drums.length, gap: 0, bitIdentical: 0, gauge: 0 };
  const said = { version: FRAME_VERSION, sampleRate: 48000, streamSeconds: 2, drumChosen: 0 };
  for (const [name, value] of Object.entries({ ...counts, ...said, ...heads }))
    out[head[name as keyof typeof head]] = value;
  for (const [i, fields] of drums.entries())
    for (const [name, value] of Object.entries(fields)) out[AT.drum(i) + drum[name as keyof typeof drum]] = value;
  return out;
}

const SURE = {
  id: 7,
  hits: 9,
  hitsPooled: 8,
  hitsUsed: 6,
  agreement: 0.75,
  state: STATE.measured,
  reason: REASON.agreed,
  polarity: -1,
  delaySamples: 3.25,
  method: METHOD.waveform,
};
const read = (...of: Parameters<typeof frame>): Reading => readingFromFrame(frame(...of));

describe('a frame', () => {
  it('says of the shown drum what that drum says, and of the others what they say', () => {
    const other = { ...SURE, id: 3, polarity: 1, delaySamples: -2 };
    const reading = read({ drum: 7, state: STATE.measured, reason: REASON.agreed, hits: 20 }, [other, SURE]);
    expect(answerOf(reading)).toMatchObject({
      state: 'measured',
      polarity: 'inverted',
      delaySamples: 3.25,
      hits: 9,
      method: 'waveform',
    });
    expect(reading.drums.map(({ id, delaySamples }) => [id, delaySamples])).toEqual([
      [3, -2],
      [7, 3.25],
    ]);
  });

  it.each<[string, Partial<typeof SURE>]>([
    ['a delay', { delaySamples: Number.NaN }],
    ['a polarity', { polarity: Number.NaN }],
  ])('is never measured without %s', (_, without) => {
    const answer = answerOf(read({ drum: 7 }, [{ ...SURE, ...without }]));
    expect([answer.state, answer.polarity, answer.delaySamples]).toEqual(['unclear', null, null]);
  });

  it('of a microphone on the move has a delay, and nothing else that holds', () => {
    const moving = { ...SURE, state: STATE.following, reason: REASON.moving, polarity: Number.NaN };
    expect(answerOf(read({ drum: 7 }, [moving]))).toMatchObject({
      state: 'following',
      delaySamples: 3.25,
      polarity: null,
      uncertaintySamples: null,
    });
  });

  it.each(['no-signal', 'same-signal', 'overloaded'] as const)('%s comes before what any drum says', (state) => {
    const reading = read({ drum: 7, state: STATE[state], reason: REASON['gain-copy'] }, [SURE]);
    expect(reading.inputs.fault).toEqual({ state, reason: 'gain-copy' });
    expect(answerOf(reading)).toMatchObject({ state, polarity: null, delaySamples: null, hitsUsed: 6 });
    // the drum's own answer isn't lost by it
    expect(reading.drums[0]?.state).toBe('measured');
  });

  it('of inputs with nothing in common is at fault too, though the state is a drum’s', () => {
    const { inputs } = read({ drum: 7, state: STATE.unclear, reason: REASON['no-common-signal'] }, [SURE]);
    expect(inputs.fault).toEqual({ state: 'unclear', reason: 'no-common-signal' });
  });

  it('says what is waited for while no drum is shown', () => {
    const reading = read({ state: STATE.unclear, reason: REASON['several-drums'], hits: 9 });
    expect([reading.drum, reading.inputs.fault]).toEqual([null, null]);
    expect(answerOf(reading)).toMatchObject({
      state: 'unclear',
      reason: 'several-drums',
      hits: 9,
      hitsPooled: 0,
      hitsUsed: 0,
    });
  });

  it('of a drum that is gone says what is waited for, never another drum’s answer', () => {
    const reading = read({ drum: 2, state: STATE.listening, reason: REASON['too-few-hits'] }, [SURE]);
    expect(answerOf(reading)).toMatchObject({ state: 'listening', polarity: null });
  });

  it('names a hit by what became of it; what is no code is still pending', () => {
    const out = frame({ hitCount: 2 });
    out[AT.hit(0) + hit.fate] = FATE['two-drums'];
    out[AT.hit(1) + hit.fate] = 99;
    expect(readingFromFrame(out).perHit.map(({ fate }) => fate)).toEqual(['two-drums', 'pending']);
  });

  it('has no place twice', () => {
    const places = [
      ...Object.values(head),
      ...[0, 1, 2, 3].map((b) => AT.band(b)),
      AT.hit(0),
      AT.drum(0),
      AT.re,
      AT.im,
      AT.coherence,
      AT.curve,
    ];
    expect(new Set(places).size).toBe(places.length);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
  });
});
