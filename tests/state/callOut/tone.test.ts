import { describe, expect, it } from 'vitest';
import { answerOf, type HitReading, type Reading } from '../../../src/reading/reading';
import {
  AT_ITS_PLACE,
  FAR_CM,
  FAR_HZ,
  HIT_SECONDS,
  NEAR_HZ,
  type ToneState,
  toneHz,
  toneOf,
} from '../../../src/state/callOut/tone';
import { CM_PER_SAMPLE, reading } from '../../advice/readings';

describe('the tone’s frequency', () => {
  it('goes from the lowest, far off, to the highest, at its place', () => {
    expect([toneHz(FAR_CM), toneHz(400), toneHz(0)]).toEqual([FAR_HZ, FAR_HZ, NEAR_HZ]);
  });

  it('rises with every half centimetre on the way, by more the nearer it is, and the same from both sides', () => {
    let last = 0;
    let lastStep = 0;
    for (let cm = FAR_CM; cm >= 0; cm -= 0.5) {
      const hz = toneHz(cm);
      expect(toneHz(-cm)).toBe(hz);
      const cents = last === 0 ? 0 : 1200 * Math.log2(hz / last);
      if (last > 0) expect(cents).toBeGreaterThan(lastStep);
      last = hz;
      lastStep = cents;
    }
  });

  it('tells half a centimetre by a semitone and more within 3 cm, by an eighth of a tone anywhere', () => {
    const cents = (cm: number): number => 1200 * Math.log2(toneHz(cm - 0.5) / toneHz(cm));
    for (let cm = 0.5; cm <= 3; cm += 0.5) expect(cents(cm)).toBeGreaterThan(60);
    for (let cm = 3; cm <= FAR_CM; cm += 0.5) expect(cents(cm)).toBeGreaterThan(20);
  });
});

const NOW_SECONDS = 10;
/** the one drum of such a reading */
const DRUM = 1;
const hit = (timeSeconds: number, drum = DRUM): HitReading => ({
  serial: 1,
  timeSeconds,
  delaySamples: null,
  polarity: null,
  fate: 'used',
  drum,
  levelADbfs: null,
  levelBDbfs: null,
  correlation: null,
  bandCorrelation: [],
});

function moving(cm: number | null, fields: Partial<Reading> = {}): ToneState {
  const delaySamples = cm === null ? null : cm / CM_PER_SAMPLE;
  const made = reading({ state: 'following', reason: 'moving', hits: 8, delaySamples, streamSeconds: NOW_SECONDS });
  const all: Reading = { ...made, perHit: [hit(NOW_SECONDS - 1)], ...fields };
  return {
    reading: all,
    answer: answerOf(all),
    context: { kind: 'same-side', temperatureC: 20, invertB: false },
    live: true,
  };
}

describe('the tone', () => {
  it('pulses while B is on its way, either way, and is steady with a second tone at its place', () => {
    const far = toneOf(moving(12));
    const near = toneOf(moving(-4));
    expect([far?.shape, near?.shape]).toEqual(['pulses', 'pulses']);
    expect(near?.hz).toBeGreaterThan(far?.hz ?? 0);
    expect(toneOf(moving(0.4))).toEqual(AT_ITS_PLACE);
  });

  it('is silent where nothing is followed', () => {
    for (const state of ['listening', 'measured', 'unclear'] as const) {
      const base = moving(4);
      const answer = { ...base.answer, state } as ToneState['answer'];
      expect(toneOf({ ...base, answer }), state).toBe(null);
    }
    expect(toneOf({ ...moving(4), answer: null })).toBe(null);
    expect(toneOf({ ...moving(4), reading: null })).toBe(null);
  });

  it('is silent where the reading is old, held, or of what was set before', () => {
    expect(toneOf({ ...moving(4), live: false })).toBe(null);
  });

  it('is silent where the newest hit is some time ago, or the drum has none', () => {
    expect(toneOf(moving(4, { perHit: [hit(NOW_SECONDS - HIT_SECONDS + 0.1)] }))).not.toBe(null);
    expect(toneOf(moving(4, { perHit: [hit(NOW_SECONDS - HIT_SECONDS - 0.1)] }))).toBe(null);
    expect(toneOf(moving(4, { perHit: [hit(NOW_SECONDS - 1, 7)] }))).toBe(null);
    expect(toneOf(moving(4, { perHit: [] }))).toBe(null);
  });

  it('is silent where how far is left isn’t known', () => {
    expect(toneOf(moving(null))).toBe(null);
    const room = moving(300);
    expect(toneOf({ ...room, context: { ...room.context, kind: 'close-room' } })).toBe(null);
  });
});
