/** One key per control; M, S and R are left alone, which mute, solo and record at a desk. Keys are shown beside their controls; they can be switched off (WCAG 2.1.4). */
export type Command =
  | 'hold'
  | 'start-over'
  | 'swap'
  | 'invert-b'
  | 'kind'
  | 'temperature'
  | 'band-0'
  | 'band-1'
  | 'band-2'
  | 'band-3'
  | 'band-4'
  | 'comb'
  | 'curve'
  | 'call-out'
  | 'why'
  | 'try'
  | 'drum'
  | 'sums'
  | 'help'
  | 'lights'
  | 'hear'
  | 'listen'
  | 'sources'
  | 'kit'
  | 'accept'
  | 'accept-unsure'
  | 'a-inverted'
  | 'b-inverted'
  | 'leave-so'
  | 'put-off'
  | 'back';

export const KEY_OF: Readonly<Record<Command, string>> = {
  hold: 'H',
  'start-over': 'F',
  swap: 'X',
  'invert-b': 'I',
  kind: 'K',
  temperature: 'T',
  'band-0': '1',
  'band-1': '2',
  'band-2': '3',
  'band-3': '4',
  'band-4': '5',
  comb: 'G',
  curve: 'Y',
  'call-out': 'C',
  why: 'W',
  try: 'J',
  drum: 'D',
  sums: 'Q',
  help: '?',
  lights: 'L',
  hear: 'V',
  listen: 'Z',
  sources: 'O',
  kit: 'E',
  accept: 'Enter',
  'accept-unsure': 'U',
  'a-inverted': 'A',
  'b-inverted': 'B',
  'leave-so': 'N',
  'put-off': 'P',
  back: 'Esc',
};

/** What can't be undone takes a key that is held. */
export const HELD: ReadonlySet<Command> = new Set(['start-over']);

const COMMAND_OF = new Map<string, Command>(
  (Object.entries(KEY_OF) as [Command, string][]).map(([command, key]) => [
    key === 'Esc' ? 'escape' : key.toLowerCase(),
    command,
  ]),
);

export interface KeyPress {
  key: string;
  ctrlKey: boolean;
  metaKey: boolean;
  altKey: boolean;
  repeat: boolean;
  /** the focus is in a field that takes text or letters itself */
  typing: boolean;
  /** the focus is on a button or a link, which Enter presses */
  onButton?: boolean;
}

/** @returns the command of a key press, or null where the key belongs to something else */
export function commandOf(press: KeyPress, keysOn: boolean): Command | null {
  if (press.ctrlKey || press.metaKey || press.altKey || press.repeat) return null;
  const command = COMMAND_OF.get(press.key.toLowerCase()) ?? null;
  if (command === 'back') return command;
  if (!keysOn || press.typing) return null;
  if (command === 'accept' && press.onButton) return null;
  return command;
}

/** @returns which way through what was changed a key press goes; null: it is none of these */
export function stepOf(press: Omit<KeyPress, 'onButton'> & { shiftKey: boolean }): 'undo' | 'redo' | null {
  // what a field's own undo would do belongs to the field
  if (!(press.ctrlKey || press.metaKey) || press.altKey || press.typing) return null;
  if (press.key.toLowerCase() !== 'z') return null;
  return press.shiftKey ? 'redo' : 'undo';
}

/** Fields in which letters mean text or a choice. */
export function isTyping(target: { tagName?: string; type?: string } | null): boolean {
  const tag = target?.tagName?.toLowerCase();
  if (tag === 'textarea' || tag === 'select') return true;
  return tag === 'input' && !['checkbox', 'radio', 'range', 'button', 'file'].includes(target?.type ?? 'text');
}

/** Enter presses these itself. */
export function isButton(target: { tagName?: string } | null): boolean {
  return ['button', 'a', 'summary', 'input'].includes(target?.tagName?.toLowerCase() ?? '');
}
