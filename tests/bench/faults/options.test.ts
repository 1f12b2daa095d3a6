import { describe, expect, it } from 'vitest';
import { KINDS } from './faultTypes';
import { faultOptions } from './options';
import { FAULTS } from './registry';

describe('the fault bench', () => {
  it('takes kinds, a part of a name, and whether to list all', () => {
    expect(faultOptions([])).toEqual({ kinds: [], only: null, list: false });
    expect(faultOptions(['files', 'sheets', '--list', '--only', 'NaN'])).toEqual({
      kinds: ['files', 'sheets'],
      only: 'NaN',
      list: true,
    });
    expect(() => faultOptions(['cables'])).toThrow('No such kind of fault: cables. There are: input, thread');
  });

  it.each([
    ['input', 40],
    ['thread', 20],
    ['files', 40],
    ['sheets', 20],
  ] as const)('knows faults of %s, at least %i, no two of one name', (kind, least) => {
    expect(KINDS).toContain(kind);
    const names = FAULTS.filter((fault) => fault.kind === kind).map(({ sub, name }) => `${sub}: ${name}`);
    expect(names.length).toBeGreaterThanOrEqual(least);
    expect(new Set(names).size).toBe(names.length);
  });

  it('expects one sentence of each, or says that there is none', () => {
    for (const { name, told, how, recovers } of FAULTS) {
      expect(told instanceof RegExp || told === 'nothing' || told === 'may', name).toBe(true);
      expect(how.length * recovers.length, name).toBeGreaterThan(0);
    }
  });
});
