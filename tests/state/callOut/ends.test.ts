/** A meter's page and a window of its big display, joined by a channel that hands every message to all others at once. */
import { describe, expect, it } from 'vitest';
import type { CallOutView } from '../../../src/state/callOut/callOutView';
import { type FromMeter, type Message, messageOf, VERSION } from '../../../src/state/callOut/messages';
import { MeterEnd } from '../../../src/state/callOut/meterEnd';
import { ASK_MS, type Followed, SILENT_MS, WindowEnd } from '../../../src/state/callOut/windowEnd';

const view = (text: string): CallOutView => ({
  text,
  sureness: '',
  now: '',
  before: '',
  caution: '',
  flags: [],
  problem: { code: '', text: '' },
  mark: { state: 'measured', have: 4, need: 4, rough: false },
  old: false,
  round: null,
  action: 'leave',
  moveCm: null,
  previousPathCm: null,
  lights: 'auto',
  from: '',
});

/** All on one channel; time goes by hand. */
class Room {
  nowMs = 0;
  readonly log: Message[] = [];
  private readonly ears: ((message: Message) => void)[] = [];

  private join(hear: (message: Message) => void): (message: Message) => void {
    this.ears.push(hear);
    return (message) => {
      this.log.push(message);
      for (const ear of [...this.ears]) if (ear !== hear) ear(structuredClone(message));
    };
  }

  /** @param shows what its page shows once it is asked */
  meter(meter: string, life: string, shows: string) {
    let text = shows;
    let end: MeterEnd | null = null;
    const ear = (message: Message): void => end?.hear(message);
    const post = this.join(ear);
    const made = new MeterEnd({ meter, life, post, onAsked: () => made.show(view(text)) });
    end = made;
    made.open();
    return {
      show(next: string) {
        text = next;
        made.show(view(next));
      },
      close() {
        made.close();
        end = null;
      },
      /** without a word */
      crash() {
        end = null;
      },
    };
  }

  window(meter: string | null) {
    const seen: Followed[] = [];
    const met: string[] = [];
    const post = this.join((message) => end.hear(message, this.nowMs));
    const end = new WindowEnd({ meter, post, onChange: (it) => seen.push(it), onMeter: (it) => met.push(it) });
    end.look(0);
    const now = () => seen.at(-1);
    return {
      seen,
      met,
      end,
      look: () => end.look(this.nowMs),
      says: () => `${now()?.fate ?? 'looking'}: ${now()?.view?.text ?? ''}`,
      other: () => now()?.other ?? null,
    };
  }
}

const types = (log: readonly Message[]): string[] => log.map(({ type }) => type);

describe('a window of the big display', () => {
  it('shows what its meter shows, and is told only of what changed', () => {
    const room = new Room();
    const meter = room.meter('m', '1', 'Waiting');
    const screen = room.window('m');
    expect(screen.says()).toBe('following: Waiting');
    meter.show('Leave it');
    expect(screen.says()).toBe('following: Leave it');
    room.log.length = 0;
    for (let i = 0; i < 100; i++) meter.show('Leave it');
    expect(room.log).toEqual([]);
    room.nowMs += ASK_MS;
    screen.look();
    expect(types(room.log)).toEqual(['ask', 'beat']);
  });

  it('waits where none is open yet, and finds it when it opens', () => {
    const room = new Room();
    const screen = room.window('m');
    expect(screen.says()).toBe('looking: ');
    room.meter('m', '1', 'Leave it');
    expect(screen.says()).toBe('following: Leave it');
  });

  it('finds its meter again after a reload, and knows in between that it is closed', () => {
    const room = new Room();
    const first = room.meter('m', '1', 'Invert B');
    const screen = room.window('m');
    first.close();
    expect(screen.says()).toBe('closed: Invert B');
    room.meter('m', '2', 'Waiting');
    expect(screen.says()).toBe('following: Waiting');
  });

  it('of a page that goes without a word it says so within a few seconds, and takes the next in', () => {
    const room = new Room();
    const first = room.meter('m', '1', 'Invert B');
    const screen = room.window('m');
    first.crash();
    for (let i = 0; i < 4; i++) {
      room.nowMs += ASK_MS;
      screen.look();
    }
    expect(room.nowMs).toBeLessThanOrEqual(SILENT_MS + 2 * ASK_MS);
    expect(screen.says()).toBe('silent: Invert B');
    room.meter('m', '2', 'Leave it');
    expect(screen.says()).toBe('following: Leave it');
  });

  it('never alternates between two meters, nor with a duplicate of its tab', () => {
    const room = new Room();
    const mine = room.meter('m', '1', 'mine');
    const screen = room.window('m');
    const other = room.meter('n', '2', 'other');
    const twin = room.meter('m', '3', 'twin');
    room.window('n');
    for (let i = 0; i < 10; i++) {
      other.show(`other ${i}`);
      twin.show(`twin ${i}`);
      mine.show(`mine ${i}`);
      room.nowMs += ASK_MS;
      screen.look();
    }
    const texts = new Set(screen.seen.map(({ view: it }) => it?.text.split(' ')[0]));
    expect([...texts]).toEqual(['mine']);
    expect(screen.says()).toBe('following: mine 9');
  });

  it('offers another meter once its own is closed, and follows it only when told to', () => {
    const room = new Room();
    const mine = room.meter('m', '1', 'mine');
    const screen = room.window('m');
    const other = room.meter('n', '2', 'other');
    expect(screen.other()).toBe(null);
    mine.close();
    room.nowMs += ASK_MS;
    screen.look();
    expect([screen.says(), screen.other()]).toEqual(['closed: mine', 'n']);
    screen.end.follow('n');
    expect([screen.says(), screen.other(), screen.met]).toEqual(['following: other', null, ['n']]);
    // the offer goes with the meter
    other.close();
    expect(screen.says()).toBe('closed: other');
  });

  it('without an address takes the first that answers, and keeps to it', () => {
    const room = new Room();
    room.meter('m', '1', 'first');
    room.meter('n', '2', 'second');
    const screen = room.window(null);
    expect([screen.says(), screen.met]).toEqual(['following: first', ['m']]);
  });

  it('a view that went missing is asked for, and what is there isn’t called now for longer', () => {
    const room = new Room();
    const meter = room.meter('m', '1', 'one');
    const screen = room.window('m');
    const hear = screen.end.hear.bind(screen.end);
    screen.end.hear = () => undefined;
    meter.show('two');
    screen.end.hear = hear;
    expect(screen.says()).toBe('following: one');
    room.nowMs += ASK_MS;
    screen.look();
    expect(screen.says()).toBe('following: two');
  });

  it('of another version of the page it says that, and shows nothing of it', () => {
    const room = new Room();
    room.meter('m', '1', 'one');
    const screen = room.window('m');
    const newer: FromMeter = { type: 'view', version: VERSION + 1, meter: 'm', life: '1', n: 9, view: view('nine') };
    screen.end.hear(newer, 0);
    expect(screen.says()).toBe('other-version: one');
  });
});

it('what is no message of these is none', () => {
  for (const data of [null, 7, 'view', {}, { type: 'view' }, { type: 'steal', version: 1 }])
    expect(messageOf(data)).toBe(null);
  expect(messageOf({ type: 'here', version: 1, meter: 'm', life: '1' })?.type).toBe('here');
});
