/** What the fault bench tries, and what it notes of each. */
import type { Browser } from 'playwright-core';
import type { SoundServer } from '../../support/page/soundServer';

export const KINDS = ['input', 'thread', 'files', 'sheets'] as const;
export type Kind = (typeof KINDS)[number];

/** `nothing`: it goes on, and a sentence would be a false alarm. `may`: it goes on whether a sentence says so or not. */
export type Told = RegExp | 'nothing' | 'may';

export interface Fault {
  kind: Kind;
  sub: string;
  /** what is wrong, a few words */
  name: string;
  /** how the bench brings it about */
  how: string;
  /** the sentence that is expected on the page */
  told: Told;
  /** what brings a right reading (or the sheet) back */
  recovers: string;
  /** it needs most of a core: nothing else runs beside it */
  heavy?: boolean;
  run(bench: Bench): Promise<Outcome>;
}

export interface Outcome {
  /** the expected sentence was on the page, within its time; nothing, where nothing was expected */
  told: boolean;
  /** without a reload */
  recovered: boolean;
  /** certain readings on the screen that weren't the truth; empty: none */
  wrong: string[];
  /** accepted or open before, and gone; empty: nothing */
  lost: string[];
  /** what was on the page in place of what was expected, or how far it came */
  shown: string;
}

/** What all faults share: a server of the built page, browsers, a sound server. Each is started when it is first wanted. */
export interface Bench {
  url: string;
  /** its only input: a pair whose truth is known (live/pair.ts) */
  fakeDevice(): Promise<Browser>;
  noDevice(): Promise<Browser>;
  /** the sound server's inputs, and one of them to be heard; null: none can be had here */
  sound(): Promise<{ server: SoundServer; browser: Browser } | null>;
}
