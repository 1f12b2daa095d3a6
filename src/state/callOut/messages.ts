/**
 * What the meter's page and the windows of its big display say to each other, over one BroadcastChannel: of this origin
 * only, and it needs no opener, which isolation by headers (COOP) and `noopener` take away.
 */
import type { CallOutView } from './callOutView';

export const CHANNEL = 'crosshead.big-display';

/** the address's parameter by which the page is the big display alone; its value: the meter that it follows */
export const WINDOW_PARAMETER = 'big-display';

/** Another version of the page is not understood, and isn't guessed at. */
export const VERSION = 1;

interface OfMeter {
  version: number;
  /** the tab: stays through its reload */
  meter: string;
  /** the page: another one after a reload */
  life: string;
}

/** `here`: it is open · `view`: what it shows, the n-th · `beat`: nothing changed since the n-th · `closed`: it goes */
export type FromMeter =
  | (OfMeter & { type: 'here' | 'closed' })
  | (OfMeter & { type: 'view'; n: number; view: CallOutView })
  | (OfMeter & { type: 'beat'; n: number });

export interface FromWindow {
  type: 'ask';
  version: number;
  /** null: whoever is open says so */
  meter: string | null;
  /** null: whichever page of that tab is open */
  life: string | null;
  /** number of the view that the window has; 0: none */
  have: number;
}

export type Message = FromMeter | FromWindow;

const TYPES: ReadonlySet<unknown> = new Set<Message['type']>(['ask', 'here', 'view', 'beat', 'closed']);

/** @returns null for what is none of these; of another version only that it is one may be relied on */
export function messageOf(data: unknown): Message | null {
  if (typeof data !== 'object' || data === null) return null;
  const { type, version } = data as Partial<Message>;
  return TYPES.has(type) && typeof version === 'number' ? (data as Message) : null;
}
