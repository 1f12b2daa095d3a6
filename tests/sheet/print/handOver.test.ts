import { describe, expect, test } from 'vitest';
import type { KitSheet, Pair, Taken } from '../../../src/sheet/document/model';
import { handOver } from '../../../src/sheet/print/handOver';
import { DONE, start, withPairs } from '../../support/readings/sheets';
import { planned, TAKEN, timing, UNPLANNED } from '../../support/readings/taken';

const withMicrophones = (sheet: KitSheet, change: (id: string) => object): KitSheet => ({
  ...sheet,
  microphones: sheet.microphones.map((one) => ({ ...one, ...change(one.id) })),
});

const same = (delayMs: number, more: Partial<Taken> = {}): Taken => ({
  ...TAKEN,
  polarity: 'same',
  fuller: 'as-is',
  delayMs,
  ...planned(timing(0.7, 0.5)),
  ...more,
});
const eight = start('eight');
const snares = (more: Partial<Pair>): KitSheet => withPairs(eight, { 'snareTop-snareBottom': more });
const rowOf = (more: Partial<Pair>) => {
  const [row] = handOver(snares(more)).pairs;
  if (!row) throw new Error('no row');
  return row;
};
const delaysOf = (sheet: KitSheet, id: string) => handOver(sheet).microphones.find((one) => one.id === id)?.delays;

describe('the head', () => {
  test('says when, by whom, in which air, and how much was accepted', () => {
    const sheet = withPairs(
      { ...eight, note: ' two songs ', sampleRate: 44100, temperatureC: -2.5 },
      {
        'snareTop-snareBottom': {
          before: { ...TAKEN, initials: 'KL', takenAt: '2026-01-02T03:04:05Z' },
          // an hour east of Greenwich: 22:30 UTC of the day before
          after: { ...TAKEN, initials: 'MO', takenAt: '2026-01-01T23:30:00+01:00', temperatureC: 24 },
          acceptedAt: '2026-01-02T03:10:00Z',
        },
      },
    );
    expect(handOver(sheet).head).toEqual({
      name: 'Quay',
      note: 'two songs',
      rate: '44.1 kHz, measured at 48 kHz',
      temperature: '−2.5 °C, readings at 20 to 24 °C',
      read: '2026-01-01 22:30 to 2026-01-02 03:04 UTC',
      initials: 'KL, MO',
      accepted: `1 of ${eight.pairs.length} pairs accepted`,
    });
  });

  test('one pair accepted of several, and nothing to do: it says by how many it goes, not to do all of it together', () => {
    const told = handOver(snares({ before: same(0.07), acceptedAt: '2026-01-02T03:10:00Z' }));
    expect(told.inTheMix.lead).toBe(`Goes by 1 of ${eight.pairs.length} pairs.`);
    expect(told.inTheMix.invert).toEqual(['Nothing to do: leave the polarity switches as they are.']);
  });

  test('an empty sheet claims nothing', () => {
    const told = handOver({ ...eight, name: ' ', microphones: [], pairs: [], references: [], follows: [] });
    expect(told).toMatchObject({ microphones: [], pairs: [], notRead: null, doubts: [], pictures: [] });
    expect(told.head).toMatchObject({ name: 'Unnamed kit', read: 'nothing measured yet', initials: '–' });
    expect(told.head.accepted).toBe('0 of 0 pairs accepted');
    expect(told.inTheMix).toEqual({
      lead: '',
      invert: ['No reading to go by.'],
      delay: [],
      pays: [],
      groups: [],
    });
    expect(told.cautions.at(-1)).toBe('House rules, local codes and the qualified people on site come first.');
  });

  test('a kit that nobody has read yet has no pair rows, and no delays but its references', () => {
    const told = handOver(eight);
    expect(told.pairs).toEqual([]);
    expect(told.notRead).toBe('No pair was measured.');
    expect(new Set(told.microphones.flatMap(({ delays }) => delays.map(({ text }) => text)))).toEqual(
      new Set(['reference', '–']),
    );
  });
});

describe('microphones', () => {
  test('their settings, and a delay for each drum they were read on', () => {
    const sheet = withMicrophones(
      withPairs(eight, {
        'snareTop-overheadLeft': { before: same(3.06, { uncertaintyMs: 0.1 }) },
        'highTom-overheadLeft': { before: same(-0.07, { uncertaintyMs: 0.004 }) },
      }),
      (id) => (id === 'overheadLeft' ? { inverted: true, lowCut: '80 Hz', pad: ' ', note: 'left boom' } : {}),
    );
    const reference = {
      ...sheet,
      references: sheet.references.map((one) => (one.drum === 'snare' ? { ...one, microphone: 'snareTop' } : one)),
    };
    const row = handOver(reference).microphones.find(({ id }) => id === 'overheadLeft');
    expect(row).toEqual({
      id: 'overheadLeft',
      input: '7',
      label: 'Overhead left',
      place: 'whole kit, above, left',
      polaritySwitch: 'inverted',
      lowCut: '80 Hz',
      pad: '–',
      contour: '–',
      note: 'left boom',
      delays: [
        // by hand: 3.06 ms · 48 = 146.9; −0.07 · 48 = −3.4; what is below 0.01 ms isn't said to be nothing
        { drum: 'kick', text: '–' },
        { drum: 'snare', text: '+3.06 (+147) ±0.10' },
        { drum: 'rack tom', text: '−0.07 (−3) ±0.01' },
      ],
    });
    expect(delaysOf(reference, 'snareTop')).toEqual([{ drum: 'snare', text: 'reference' }]);
  });

  test('samples are the recording’s, not the meter’s', () => {
    const sheet = { ...snares({ before: same(0.1, { sampleRate: 44100 }) }), sampleRate: 96000 };
    const other = { ...sheet, references: [{ drum: 'snare', microphone: 'snareTop' }] };
    expect(delaysOf(other, 'snareBottom')).toEqual([{ drum: 'snare', text: '+0.10 (+10) ±0.02' }]);
  });

  test('no accuracy is told where a reading of the drum says none', () => {
    for (const uncertaintyMs of [null, 0]) {
      const sheet = snares({ before: same(0.1, { uncertaintyMs }) });
      const other = { ...sheet, references: [{ drum: 'snare', microphone: 'snareTop' }] };
      expect(delaysOf(other, 'snareBottom')).toEqual([{ drum: 'snare', text: '+0.10 (+5) ± unknown' }]);
    }
  });

  test('an accuracy that is missing on one drum takes nothing from another', () => {
    const sheet = withPairs(snares({ before: same(0.1) }), {
      'kickIn-kickOut': { before: same(1, { uncertaintyMs: null }) },
    });
    const other = { ...sheet, references: [{ drum: 'snare', microphone: 'snareTop' }] };
    expect(delaysOf(other, 'snareBottom')).toEqual([{ drum: 'snare', text: '+0.10 (+5) ±0.02' }]);
    expect(delaysOf(other, 'kickOut')?.[0]).toEqual({ drum: 'kick', text: '+1.00 (+48) ± unknown' });
  });

  test('two of one name, or of none, are told apart', () => {
    const named = withMicrophones(eight, (id) =>
      id === 'highTom' || id === 'floorTom' ? { label: 'Tom' } : id === 'kickIn' ? { label: ' ' } : {},
    );
    const labels = handOver(named).microphones.map(({ label }) => label);
    expect(labels).toEqual(expect.arrayContaining(['Tom (input 5)', 'Tom (input 6)', 'unnamed (input 1)']));
    const alike = handOver(withMicrophones(named, () => ({ input: '1' }))).microphones.map(({ label }) => label);
    expect(alike).toEqual(expect.arrayContaining(['Tom (highTom)', 'Tom (floorTom)']));
  });
});

describe('pairs', () => {
  test('one as read: polarity, path in the air of the reading, hits, and what is left to do', () => {
    expect(rowOf({ before: { ...TAKEN, delayMs: 3, uncertaintyMs: 0.05, temperatureC: 0 } })).toMatchObject({
      a: 'Snare top',
      b: 'Snare bottom',
      drum: 'snare',
      polarity: 'inverted, certain',
      // by hand, 331.3 m/s at 0 °C: 99.4 cm, ±1.66 cm
      path: '99 ±1.7 cm further',
      sure: true,
      hits: '8/9',
      line: 'In the mix: invert Snare bottom: +7.5 dB in the drum’s low octave (177–354 Hz) and +5 dB overall.',
      readAt: '03:04',
      accepted: 'yes',
    });
    expect(rowOf({ before: TAKEN, acceptedAt: null }).accepted).toBe('no');
    expect(rowOf({ before: { ...TAKEN, sure: false, reason: 'x' } }).accepted).toBe('uncertain');
    // by hand, 343.2 m/s: −3.43 cm ±6.9 mm
    expect(rowOf({ before: same(-0.1) }).path).toBe('3.5 cm ±7 mm closer');
    expect(rowOf({ before: same(0.004) }).path).toBe('same distance as A ±7 mm');
    // the path as the meter says it, and how little is known of it
    expect(rowOf({ before: same(0.1, { uncertaintyMs: 0.5 }) }).path).toBe('3 ±17 cm further');
    expect(rowOf({ before: same(0.1, { uncertaintyMs: null }) }).path).toBe('3.5 cm further, ± unknown');
  });

  test('the reading after what was done counts', () => {
    expect(rowOf({ before: TAKEN, after: same(0.1), done: { ...DONE, movedCm: 2 } })).toMatchObject({
      polarity: 'same, certain',
      line: 'Done: Snare bottom moved 2 cm closer. In the mix: nothing left to do.',
    });
  });

  test('an unsure one says so and why, and gives neither polarity nor path', () => {
    const row = rowOf({ before: { ...TAKEN, sure: false, reason: 'the hits don’t agree' } });
    expect(row).toMatchObject({ polarity: 'uncertain: the hits don’t agree', path: '–', sure: false });
    const sheet = snares({ before: { ...TAKEN, sure: false, reason: '' } });
    expect(handOver(sheet).pairs[0]?.polarity).toBe('uncertain');
    // its sum still counts
    expect(handOver(sheet).inTheMix.invert).toEqual(['Snare bottom: against Snare top.']);
    expect(handOver(sheet).microphones.find(({ id }) => id === 'snareBottom')?.delays[0]?.text).toBe('–');
  });

  test('what wasn’t read is told, and nothing stands in for it', () => {
    const told = handOver(snares({ before: { ...TAKEN, ...UNPLANNED, polarity: null, delayMs: null, fuller: null } }));
    expect(told.pairs[0]).toMatchObject({
      polarity: '–',
      path: '–',
      line: 'In the mix: no recommendation (the reading is uncertain).',
    });
    // the pairs of one mic on one drum are one item
    expect(told.notRead).toBe(
      'Not measured: Kick in → Kick out (kick); Overhead left → Overhead right (snare); Snare top → Overhead left and Overhead right (snare); Kick out → Overhead left (kick); Rack tom → Overhead left (rack tom); Floor tom → Overhead right (floor tom).',
    );
    expect(told.notRead).not.toContain('Snare bottom');
  });

  test('a switch that was changed since turns what is said of now', () => {
    const sheet = withMicrophones(snares({ before: TAKEN }), (id) => (id === 'snareBottom' ? { inverted: true } : {}));
    const told = handOver(sheet);
    expect(told.pairs[0]).toMatchObject({
      polarity: 'inverted, certain; now same',
      line: 'In the mix: nothing left to do.',
    });
    expect(told.inTheMix.invert).toEqual(['Nothing to do: leave the polarity switches as they are.']);
  });

  test('what was done, and the second look', () => {
    const row = rowOf({
      before: same(0.1),
      done: { ...DONE, inverted: 'b', movedCm: -2.5, later: { invertB: false, delayMs: 0.25 }, note: ' see "take" 2 ' },
      acceptedAt: '2026-01-02T03:10:00Z',
      checked: { checkedAt: '2026-01-03T04:00:00Z', change: 'moved', fartherCm: -1.4 },
    });
    expect(row).toMatchObject({
      line: 'Done: Snare bottom inverted and moved 2.5 cm back (not measured again since). Note: “see "take" 2”. In the mix: delay Snare top by 0.25 ms (12 samples); leave both polarities: what A+B gains is unknown. Recheck 2026-01-03 04:00: B 1.4 cm closer than when accepted.',
      // two days on the sheet: the time of day isn't enough
      readAt: '2026-01-02 03:04',
      accepted: 'yes',
    });
    expect(rowOf({ before: same(0.1), done: DONE }).line).toBe('In the mix: nothing left to do.');
    for (const [change, said] of [
      ['same', 'same as accepted'],
      ['polarity', 'polarity inverted since accepted'],
      ['unknown', 'can’t tell'],
    ] as const)
      expect(
        rowOf({ before: same(0.1), checked: { checkedAt: '2026-01-02T04:00:00Z', change, fartherCm: null } }).line,
      ).toBe(`In the mix: nothing left to do. Recheck 04:00: ${said}.`);
  });
});

test('names and notes are text, however long or odd', () => {
  const odd = '<img src=x onerror=alert(1)> =SUM(1) \u202e'.padEnd(80, 'W');
  const sheet = withMicrophones(
    { ...snares({ before: same(0.1), done: { ...DONE, note: 'n'.repeat(2000) } }), name: odd },
    (id) => (id === 'snareTop' ? { label: odd, note: odd } : {}),
  );
  const told = handOver(sheet);
  expect(told.head.name).toBe(odd);
  expect(told.pairs[0]?.a).toBe(odd);
  expect(told.pairs[0]?.line).toBe(`Note: “${'n'.repeat(2000)}”. In the mix: nothing left to do.`);
});
