/** A way to the ears, whatever it is made of. It is silent until a level is set and something plays. */
import type { Mix } from './version';

export interface ListeningPath {
  /** the first is there at once, others fade in, at the same place of the loop */
  choose(mix: Mix): void;
  /** what goes round, from its beginning. Equal lengths; of a path for live sound nothing */
  setLoop(a: Float32Array, b: Float32Array): void;
  /** 0…1 */
  setLevel(level: number): void;
  play(on: boolean): void;
  /** faded out first */
  close(): void;
}

export interface PathEvents {
  /** live sound ran away: it is muted until `play` */
  onRunaway(): void;
  /** nothing comes out of it any more. @param text what is wrong and what to do next */
  onStopped(text: string): void;
}
