import { describe, expect, it } from 'vitest';
import { commandOf, isTyping, KEY_OF, type KeyPress } from '../../../src/ui/shared/keys';

const press = (key: string, more: Partial<KeyPress> = {}): KeyPress => ({
  key,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  repeat: false,
  typing: false,
  ...more,
});

describe('keys', () => {
  it('has one key for each command, none twice', () => {
    const keys = Object.values(KEY_OF).map((key) => key.toLowerCase());
    expect(new Set(keys).size).toBe(keys.length);
  });

  it('leaves alone what means mute, solo and record at a desk', () => {
    for (const key of ['m', 's', 'r']) expect(commandOf(press(key), true)).toBeNull();
    expect([press('x'), press('f'), press('v')].map((one) => commandOf(one, true))).toEqual([
      'swap',
      'start-over',
      'hear',
    ]);
  });

  it('finds the command whatever the case', () => {
    expect(commandOf(press('i'), true)).toBe('invert-b');
    expect(commandOf(press('I'), true)).toBe('invert-b');
    expect(commandOf(press('3'), true)).toBe('band-2');
    expect(commandOf(press('0'), true)).toBeNull();
  });

  it('leaves the browser its own keys, and a held key counts once', () => {
    for (const more of [{ ctrlKey: true }, { metaKey: true }, { altKey: true }, { repeat: true }])
      expect(commandOf(press('h', more), true)).toBeNull();
  });

  it('is silent while someone types or has switched keys off, save for Escape', () => {
    expect(commandOf(press('h', { typing: true }), true)).toBeNull();
    expect(commandOf(press('h'), false)).toBeNull();
    expect(commandOf(press('Escape', { typing: true }), false)).toBe('back');
  });

  it('knows the fields in which letters mean something', () => {
    expect(isTyping({ tagName: 'INPUT', type: 'text' })).toBe(true);
    expect(isTyping({ tagName: 'SELECT', type: 'select-one' })).toBe(true);
    expect(isTyping({ tagName: 'INPUT', type: 'range' })).toBe(false);
    expect(isTyping({ tagName: 'BUTTON', type: 'button' })).toBe(false);
    expect(isTyping(null)).toBe(false);
  });
});
