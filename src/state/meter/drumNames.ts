/** What the drums that are heard are called: as a person said in their list, or as the pair's sheet and labels say. */
import { type Accessor, createSignal } from 'solid-js';
import type { Reading } from '../../reading/reading';
import { givenDrumName } from '../../text/names';
import type { PairDrum } from '../source/askedPair';

type Drums = Pick<Reading, 'drums' | 'drum'>;

/** What of a reading the names hang on. */
interface Heard {
  ids: readonly number[];
  shown: number | null;
  loudestInA: number | null;
  loudestInB: number | null;
}

export interface DrumNames {
  /** by the drums' ids; those that nobody named are not among them */
  names: Accessor<ReadonlyMap<number, string>>;
  /** an empty text: it has no name, whatever the pair is about */
  give(id: number, text: string): void;
  /** every reading: a drum that isn’t heard any more loses its name, and after a restart, which numbers drums anew, so does every drum */
  hear(reading: Reading): void;
}

export function createDrumNames(pair: Accessor<PairDrum | null>): DrumNames {
  const [given, setGiven] = createSignal<ReadonlyMap<number, string | null>>(new Map());
  const [heard, setHeard] = createSignal<Heard>(heardIn({ drums: [], drum: null }), {
    equals: (one, two) => JSON.stringify(one) === JSON.stringify(two),
  });
  let lastSeconds = 0;
  let lastHits = 0;

  return {
    names() {
      const names = new Map([...given()].flatMap(([id, name]) => (name === null ? [] : [[id, name]])));
      const about = pair();
      const id = about && placeOf(about, heard(), given());
      if (about && id !== null) names.set(id, about.name);
      return names;
    },
    give(id, text) {
      if (!heard().ids.includes(id)) return;
      setGiven((names) => new Map(names).set(id, givenDrumName(text)));
    },
    hear(reading) {
      const restarted = reading.streamSeconds < lastSeconds || reading.hits < lastHits;
      lastSeconds = reading.streamSeconds;
      lastHits = reading.hits;
      const now = heardIn(reading);
      const kept = restarted ? [] : [...given()].filter(([id]) => now.ids.includes(id));
      if (kept.length !== given().size) setGiven(new Map(kept));
      setHeard(now);
    },
  };
}

function heardIn({ drums, drum }: Drums): Heard {
  const level = (one: (typeof drums)[number]): number => one.levelBDbfs ?? Number.NEGATIVE_INFINITY;
  const inB = drums.reduce<(typeof drums)[number] | null>(
    (top, one) => (top && level(top) >= level(one) ? top : one),
    null,
  );
  return {
    ids: drums.map(({ id }) => id),
    shown: drum,
    loudestInA: drums[0]?.id ?? null,
    loudestInB: inB?.id ?? null,
  };
}

/**
 * The drum that the pair is about: the shown one where somebody said what the pair is about; where the labels say it, the loudest
 * in the microphone that is close to it. Null: a person gave that name, or named that drum otherwise.
 */
function placeOf({ name, closeTo }: PairDrum, heard: Heard, given: ReadonlyMap<number, string | null>): number | null {
  if ([...given.values()].some((one) => one?.toLowerCase() === name.toLowerCase())) return null;
  const close = closeTo === 'b' ? heard.loudestInB : heard.loudestInA;
  const id = closeTo === null ? heard.shown : close;
  return id === null || given.has(id) ? null : id;
}
