import { expect, it } from 'vitest';
import { memoryKeeper } from '../../../src/state/settings/keeper';
import { createSoundSettings } from '../../../src/state/settings/soundSettings';

it('levels and voice come back; on doesn’t', () => {
  const keeper = memoryKeeper();
  const one = createSoundSettings(keeper);
  expect([one.voiceOn(), one.toneOn()]).toEqual([false, false]);
  one.setVoiceOn(true);
  one.setToneOn(true);
  one.setVoiceLevel(0.8);
  one.setToneLevel(0.1);
  one.setVoice('Harbour');
  const two = createSoundSettings(keeper);
  expect([two.voiceLevel(), two.toneLevel(), two.voice()]).toEqual([0.8, 0.1, 'Harbour']);
  expect([two.voiceOn(), two.toneOn()]).toEqual([false, false]);
});

it('what is no level is none', () => {
  for (const text of ['', 'loud', '-1', '1.5', 'NaN', 'Infinity']) {
    const keeper = memoryKeeper();
    keeper.set('toneLevel', text);
    const settings = createSoundSettings(keeper);
    expect(settings.toneLevel(), text).toBe(createSoundSettings(memoryKeeper()).toneLevel());
    settings.setToneLevel(Number(text || 'NaN'));
    expect(settings.toneLevel()).toBeLessThanOrEqual(1);
  }
});
