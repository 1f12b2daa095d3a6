import { describe, expect, it } from 'vitest';
import { browserKeeper, memoryKeeper } from '../../../src/state/settings/keeper';
import {
  createSettings,
  parseTemperatureC,
  TEMPERATURE_MAX_C,
  TEMPERATURE_MIN_C,
} from '../../../src/state/settings/settings';

describe('settings', () => {
  it('come back from where they were kept', () => {
    const keeper = memoryKeeper();
    const one = createSettings(keeper);
    one.setKind('top-bottom');
    one.setTemperatureC(24.5);
    one.setLabel(0, 'top');
    one.setDrum('snare');
    one.setDeviceId('abc');
    one.setTraceBand(2);
    one.setLights('down');
    one.setCautionsSeen();
    const two = createSettings(keeper);
    expect([two.kind(), two.temperatureC(), two.labels()[0], two.deviceId(), two.traceBand(), two.lights()]).toEqual([
      'top-bottom',
      24.5,
      'top',
      'abc',
      2,
      'down',
    ]);
    expect([two.cautionsSeen(), two.drum()]).toEqual([true, 'snare']);
  });

  it('of a demo scene are not remembered, and the own ones come back', () => {
    const keeper = memoryKeeper();
    const settings = createSettings(keeper);
    settings.setKind('same-side');
    settings.setKind('close-room', false);
    settings.setLabel(1, 'scene', false);
    expect(settings.kind()).toBe('close-room');
    expect(settings.ownKind()).toBe('same-side');
    settings.recall();
    expect([settings.kind(), settings.labels()[1]]).toEqual(['same-side', '']);
  });

  it('of a source that brings its own are not remembered, until the own ones come back', () => {
    const settings = createSettings(memoryKeeper());
    settings.setKind('same-side');
    settings.setDrum('kick');
    settings.borrow();
    settings.setKind('close-room');
    settings.setLabel(0, 'Room');
    settings.setDrum('snare');
    expect([settings.kind(), settings.labels()[0], settings.drum()]).toEqual(['close-room', 'Room', 'snare']);
    settings.recall();
    expect([settings.kind(), settings.labels()[0], settings.drum()]).toEqual(['same-side', '', 'kick']);
    settings.setLabel(0, 'Kick in');
    settings.recall();
    expect(settings.labels()[0]).toBe('Kick in');
  });

  it('of A and B go with them where input 2 turns out to be A, and come back as A’s and B’s', () => {
    const settings = createSettings(memoryKeeper());
    settings.setLabel(0, 'Snare top');
    settings.setLabel(1, 'Snare bottom');
    settings.turnLabels();
    expect(settings.labels()).toEqual(['Snare bottom', 'Snare top']);
    settings.setLabel(1, 'Snare top, old');
    settings.recall();
    expect(settings.labels()).toEqual(['Snare top, old', 'Snare bottom']);
    settings.setLabel(1, 'Wires');
    settings.recall();
    expect(settings.labels()).toEqual(['Snare top, old', 'Wires']);
  });

  it('take no nonsense from the store', () => {
    const keeper = memoryKeeper();
    for (const key of ['kind', 'temperatureC', 'traceBand', 'lights']) keeper.set(key, 'nonsense');
    const settings = createSettings(keeper);
    expect([settings.kind(), settings.temperatureC(), settings.traceBand(), settings.lights()]).toEqual([
      'other',
      20,
      0,
      'auto',
    ]);
  });

  it('work where storage is refused', () => {
    // Node has no localStorage: every access throws, as in a page that is not allowed any
    const keeper = browserKeeper();
    expect(keeper.get('kind')).toBeNull();
    expect(() => createSettings(keeper).setKind('other')).not.toThrow();
  });

  it.each([
    ['21', 21],
    [' 21,5 ', 21.5],
    ['−3', -3],
    ['', null],
    ['warm', null],
    ['51', null],
    [null, null],
  ])('reads the temperature %j as %j', (text, value) => {
    expect(parseTemperatureC(text)).toBe(value);
  });
});

describe('the temperature has one keeper at a time', () => {
  it('this page, until an open kit says that it has it; what that one says is in force and remembered', () => {
    const keeper = memoryKeeper();
    const settings = createSettings(keeper);
    const taken: number[] = [];
    let open = false;
    settings.lendTemperature((celsius) => {
      if (open) taken.push(celsius);
      return open;
    });
    settings.setTemperatureC(24);
    expect([settings.temperatureC(), taken]).toEqual([24, []]);
    open = true;
    settings.setTemperatureC(99);
    // it comes back only by the one that keeps it
    expect([settings.temperatureC(), taken]).toEqual([24, [TEMPERATURE_MAX_C]]);
    settings.followTemperatureC(31);
    expect([settings.temperatureC(), createSettings(keeper).temperatureC()]).toEqual([31, 31]);
    settings.followTemperatureC(-40);
    expect(settings.temperatureC()).toBe(TEMPERATURE_MIN_C);
  });
});
