/** Opens and closes sources. A source that can't be opened leaves the one that runs alone: nothing is lost. */
import type {
  AudioDoor,
  DemoScene,
  MeterEvents,
  MeterLink,
  MeterSettings,
  Problem,
  TakePairSound,
} from '../../audio/link';
import type { AskedPair } from './askedPair';

export type Source =
  | { type: 'interface'; deviceId: string | null }
  /** `pair`: what the two are, as the person was asked; left out: nobody knows */
  | { type: 'recording'; files: File[]; mode: 'analyse' | 'play'; pair?: AskedPair }
  | { type: 'demo'; scene: DemoScene }
  | TakeSource;

/** A pair of a take, by its hits. */
export interface TakeSource {
  type: 'take';
  sound: TakePairSound;
  pair: AskedPair;
  /** second of the take at a second of the hits one after the other */
  takeSeconds(streamSeconds: number): number;
}

/** an audio thread that hangs never lets go: it isn't waited for any longer, ms */
const CLOSE_MS = 1000;

/** A link that fails to close is gone all the same. */
async function gone(link: MeterLink): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const longEnough = new Promise<void>((resolve) => {
    timer = setTimeout(resolve, CLOSE_MS);
  });
  await Promise.race([link.close().catch(() => undefined), longEnough]);
  clearTimeout(timer);
}

export class SourceDoor {
  link: MeterLink | null = null;
  private attempt = 0;
  /** the attempt whose events count */
  private current = 0;
  /** what was wrong with a source before it was let in */
  private early: { of: number; problem: Problem }[] = [];

  constructor(
    private readonly door: AudioDoor,
    private readonly events: MeterEvents,
  ) {}

  /**
   * @param closeFirst whether the present source must let go before (the same device, once more)
   * @param arrive called with the link before any of its events is passed on
   * @returns null when another open or close came in between
   * @throws ProblemError: the source that ran before goes on
   */
  async open(
    to: Source,
    settings: MeterSettings,
    closeFirst: boolean,
    arrive: (link: MeterLink) => void,
  ): Promise<MeterLink | null> {
    if (closeFirst) await this.close();
    const mine = ++this.attempt;
    this.early = [];
    const opened = await this.enter(to, settings, this.eventsOf(mine)).catch((thrown: unknown) => {
      if (mine === this.attempt) throw thrown;
      return null;
    });
    if (opened === null || mine !== this.attempt) {
      if (opened) await gone(opened);
      return null;
    }
    const before = this.link;
    this.current = mine;
    this.link = opened;
    void before?.close().catch(() => undefined);
    arrive(opened);
    for (const { of, problem } of this.early.splice(0)) if (of === mine) this.events.onProblem(problem);
    return opened;
  }

  /** The present source goes, and whatever is being opened is not wanted any more. */
  async close(): Promise<void> {
    this.attempt++;
    this.current = 0;
    const before = this.link;
    this.link = null;
    if (before) await gone(before);
  }

  /** Whatever is being opened is not wanted any more; the present source goes on. */
  giveUp(): void {
    this.attempt++;
  }

  private enter(to: Source, settings: MeterSettings, events: MeterEvents): Promise<MeterLink> {
    switch (to.type) {
      case 'interface':
        return this.door.openInterface(to.deviceId, settings, events);
      case 'recording':
        return this.door.openRecording(to.files, to.mode, settings, events);
      case 'demo':
        return this.door.openScene(to.scene, settings, events);
      case 'take':
        return this.door.openTakePair(to.sound, settings, events);
    }
  }

  /** Events of a source that was left are not ours any more. */
  private eventsOf(mine: number): MeterEvents {
    const ours = (): boolean => mine === this.current;
    return {
      onReading: (reading) => void (ours() && this.events.onReading(reading)),
      onProblem: (problem) => {
        if (ours()) this.events.onProblem(problem);
        else if (mine === this.attempt) this.early.push({ of: mine, problem });
      },
      onProblemOver: (code) => {
        if (ours()) this.events.onProblemOver?.(code);
        else this.early = this.early.filter((one) => one.of !== mine || one.problem.code !== code);
      },
      onPictures: (pictures) => void (ours() && this.events.onPictures?.(pictures)),
      onEnded: () => void (ours() && this.events.onEnded()),
      onProgress: (share) => void (ours() && this.events.onProgress(share)),
    };
  }
}
