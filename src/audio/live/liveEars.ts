/** What of an interface may be listened to: its newest hits, looped, and what comes in, once somebody has asked for it. */
import type { ListeningPath, PathEvents } from '../../listen/path';
import type { PairSound } from '../../listen/version';
import { fetchProgram } from '../fetchProgram';
import type { Recorder } from '../listen/recorder';
import { contextProblem } from '../problems';

const listening = () => fetchProgram(() => import('../listen/program'));

export class LiveEars {
  private recorder: Promise<Recorder> | null = null;
  private live: ListeningPath | null = null;
  private closed = false;

  /** @param skipSeconds of the beginning, which no hit is looked for in */
  constructor(
    private readonly context: BaseAudioContext,
    private readonly source: AudioNode,
    private readonly skipSeconds: number,
  ) {}

  /** The newest seconds are kept from here on, so that the hits are there when somebody wants to hear one. */
  begin(): void {
    // what fails is tried again, and told, when somebody does
    this.record().catch(() => undefined);
  }

  async sound(hitsSeconds: readonly number[], swapped: boolean, offsetSamples: number): Promise<PairSound | null> {
    const { pairSound } = await listening();
    if (this.closed) return null;
    const newest = await (await this.record()).newest();
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
    this.recorder?.then((recorder) => recorder.end()).catch(() => undefined);
    this.live?.close();
  }

  private record(): Promise<Recorder> {
    this.recorder ??= this.start().catch((thrown: unknown) => {
      this.recorder = null;
      throw contextProblem(thrown);
    });
    return this.recorder;
  }

  private async start(): Promise<Recorder> {
    const { startRecorder } = await fetchProgram(() => import('../listen/recorder'));
    return startRecorder(this.context, this.source, this.skipSeconds);
  }
}
