import { describe, expect, it } from 'vitest';
import { Engine } from '../../../src/dsp/engine';
import { flat } from '../../support/readings/flat';
import { HIGH, LOW, twoDrums } from '../../support/sound/twoDrums';

const RATE = 48000;

/** The low drum is heard twice only: it has no answer. */
function heldKit(): Engine {
  const engine = new Engine(RATE);
  const kit = twoDrums(RATE, 2, [LOW, HIGH]);
  const more = twoDrums(RATE, 4, [HIGH]);
  engine.push(kit.a, kit.b);
  engine.push(more.a, more.b);
  engine.flush();
  flat(engine.reading());
  engine.setHold(true);
  return engine;
}

describe('a drum that is chosen while the reading is held', () => {
  it('says what is known of it, not what was known of the other', () => {
    const engine = heldKit();
    const before = flat(engine.reading());
    expect(before).toMatchObject({ state: 'measured', polarity: 'inverted' });
    const low = before.drums.find((drum) => drum.id !== before.drum);
    expect(low).toMatchObject({ polarity: null, delaySamples: null });
    expect(low?.state).not.toBe('measured');
    engine.setDrum(low?.id ?? 0);
    expect(flat(engine.reading())).toMatchObject({
      state: low?.state,
      reason: low?.reason,
      polarity: null,
      delaySamples: null,
      drumChosen: true,
    });
    engine.setDrum(null);
    const { state, polarity, delaySamples, drum } = before;
    expect(flat(engine.reading())).toMatchObject({ state, polarity, delaySamples, drum, drumChosen: false });
  });

  it('and a restart on hold leaves no answer behind', () => {
    const engine = heldKit();
    engine.restart();
    expect(flat(engine.reading())).toMatchObject({ state: 'listening', polarity: null, delaySamples: null, drums: [] });
  });
});
