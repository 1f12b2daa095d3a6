/** The bench to be heard: shut until somebody asks for it, and silent until it is turned up. */
import { type JSX, onMount, Show } from 'solid-js';
import { type BenchSoundOptions, createBenchSound } from '../../state/teaching/benchSound';
import { ListenStrip } from '../listen/ListenStrip';

export function BenchSound(props: BenchSoundOptions): JSX.Element {
  const sound = createBenchSound(props);
  onMount(() => void props.loadScenes());
  return (
    <div class="bench-sound">
      <Show
        when={sound.canSound()}
        fallback={<p>No sound with a speaker as a mic: the bench draws its push and its curve only.</p>}
      >
        {/* “Now” moves, and may be next to silent; A alone stays as it is */}
        <ListenStrip source={sound.source} versions={sound.versions()} matchTo="a" />
        <p class="quiet bench-hint">
          One mic of the example kit stands for both: only delay, polarity and level are the bench’s.
        </p>
      </Show>
    </div>
  );
}
