/** What of an interface may be listened to: its newest hits, looped, and what comes in, once somebody has asked for it. */
import type { ListeningPath, PathEvents } from '../../listen/path';
import type { PairSound } from '../../listen/version';
import { fetchProgram } from '../fetchProgram';
import type { Recorder } from '../listen/recorder';
import { contextProblem } from '../problems';

const listening = () => fetchProgram(() => import('../listen/program'));

export class LiveEars {
  private recorder: Recorder | null = null;
  private kept = false;
  private live: ListeningPath | null = null;
  private closed = false;

  constructor(
    private readonly context: BaseAudioContext,
    private readonly source: AudioNode,
  ) {}

  keep(on: boolean): void {
    this.kept = on && !this.closed;
    this.recorder?.keep(this.kept);
    if (!this.kept || this.recorder) return;
    listening().then(
      ({ Recorder }) => {
        this.recorder ??= new Recorder(this.context, this.source);
        this.recorder.keep(this.kept);
      },
      // asked for again, it is told
      () => undefined,
    );
  }

  async sound(hitsSeconds: readonly number[], swapped: boolean, offsetSamples: number): Promise<PairSound | null> {
    const { pairSound } = await listening();
    const newest = await this.recorder?.newest();
    if (!newest) return null;
    const { sampleRate } = this.context;
    const heard = { ...newest, sampleRate, swapped, offsetSamples, isNewest: true };
    return pairSound(heard, { ofStream: hitsSeconds, periodSeconds: null });
  }

  async openLive(stream: MediaStream, swapped: boolean, events: PathEvents): Promise<ListeningPath> {
    const { openPath } = await listening();
    this.live?.close();
    const { sampleRate } = this.context;
    const path = await openPath(sampleRate, { stream, swapped }, events).catch((thrown: unknown) => {
      throw contextProblem(thrown, sampleRate);
    });
    if (this.closed) path.close();
    this.live = path;
    return path;
  }

  /** Whatever is heard of it goes with it. */
  close(): void {
    this.closed = true;
    this.keep(false);
    this.live?.close();
  }
}
