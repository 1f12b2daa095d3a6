/** Notes when the engine says that something moved, drum by drum, as it happens: for benches, which look inside. */
import { STEADY } from '../../../src/dsp/delay/motion';
import { DRUM_SLOTS } from '../../../src/dsp/drum/drumSorter';
import type { Engine } from '../../../src/dsp/engine';
import type { HeardDrum, HeardDrums } from '../../../src/dsp/heardDrums';
import type { HitStore } from '../../../src/dsp/hit/hitStore';
import { turnedOver } from '../../../src/state/meter/turnedOver';

/** By what rule: so many hits away from the base, a drift, or the move that another drum saw. */
export type MoveCause = '2 hits' | '3 hits' | '4 hits' | 'drift' | 'another drum' | 'unknown';
export const MOVE_CAUSES: readonly MoveCause[] = ['2 hits', '3 hits', '4 hits', 'drift', 'another drum', 'unknown'];

export interface MoveEvent {
  /** hits heard by then, of whatever drum */
  hits: number;
  drum: number;
  cause: MoveCause;
  /** the hits let go came back: a false alarm that the engine saw itself */
  takenBack: boolean;
  /** its state or reason said it */
  said: boolean;
}

/** What one drum shows at one look. */
export interface DrumLook {
  id: number;
  /** following, or moved */
  says: boolean;
  oldUpTo: number;
  cause: MoveCause;
}

interface Known {
  oldUpTo: number;
  event: MoveEvent | null;
}

/**
 * An event begins where a drum's hits are let go, or it says that something moved, and neither was so before; it ends when
 * nothing of it is said any more. What is let go on the way belongs to it.
 */
export class MoveEvents {
  readonly events: MoveEvent[] = [];
  private readonly drums = new Map<number, Known>();

  /** @param hits heard by then */
  note(looks: readonly DrumLook[], hits: number): void {
    for (const { id, says, oldUpTo, cause } of looks) {
      const known = this.drums.get(id) ?? { oldUpTo: 0, event: null };
      this.drums.set(id, known);
      const raised = oldUpTo > known.oldUpTo;
      if (known.event && oldUpTo < known.oldUpTo) known.event.takenBack = true;
      known.oldUpTo = oldUpTo;
      if ((raised || says) && known.event === null) {
        known.event = { hits, drum: id, cause, takenBack: false, said: false };
        this.events.push(known.event);
      }
      if (known.event === null) continue;
      if (says) known.event.said = true;
      // hits are let go a moment before the state says so
      else if (known.event.said || hits > known.event.hits) known.event = null;
    }
  }
}

/** The engine's own, private for everybody but benches. */
const inside = (engine: Engine) => engine as unknown as { heard: HeardDrums; store: HitStore };

export class MoveWatch {
  /** how often "Polarity flipped" came on */
  flips = 0;
  private readonly found = new MoveEvents();
  private flipped = false;
  private changes = -1;

  constructor(private readonly engine: Engine) {}

  get events(): readonly MoveEvent[] {
    return this.found.events;
  }

  look(): void {
    const { engine } = this;
    const { heard, store } = inside(engine);
    const { sorter, each } = heard;
    const looks: DrumLook[] = [];
    for (let d = 0; d < DRUM_SLOTS; d++) {
      const id = sorter.id[d] as number;
      if (id === 0) continue;
      const { pool, decision } = each[d] as HeardDrum;
      const says = decision.following || decision.moved;
      looks.push({ id, says, oldUpTo: pool.oldUpTo, cause: causeOf(each[d] as HeardDrum) });
    }
    this.found.note(looks, store.count);
    if (engine.changes === this.changes) return;
    this.changes = engine.changes;
    const flipped = turnedOver(engine.reading());
    if (flipped && !this.flipped) this.flips++;
    this.flipped = flipped;
  }
}

/** As of the newest hit that the drum's motion was judged by. */
function causeOf({ pool: { motion } }: HeardDrum): MoveCause {
  // what another drum has seen forgets this one's motion
  if (motion.count === 0) return 'another drum';
  if (motion.mode === STEADY) return 'unknown';
  if (motion.keep > 4) return 'drift';
  const jumps: Record<number, MoveCause> = { 2: '2 hits', 3: '3 hits', 4: '4 hits' };
  return jumps[motion.keep] ?? 'unknown';
}
